import { screen } from "@solidjs/testing-library";
import { describe, expect, it } from "vitest";
import type { Help } from "#shared/kitchen/advice/advice.ts";
import type { EvidenceFact } from "#shared/kitchen/model/event.ts";
import type { MqttSettings } from "#shared/kitchen/model/mqtt-settings.ts";
import { id } from "#tests/support/scene.ts";
import type { AdviceAnswer } from "#shared/protocol/advice.ts";
import type { SensorsAnswer } from "#shared/protocol/readings.ts";
import { aPhone, texts } from "#tests/support/a-phone.tsx";
import { type BusyBoard, busyBoard } from "#tests/support/board-fixture.ts";
import { settled } from "#tests/support/sockets.ts";

const HOUR = 3_600_000;
const MIN = 60_000;

describe("how this kitchen dries", () => {
  const skinned = (trayNumber: number, byMin: number, atMs: number): EvidenceFact => ({
    quantity: "skin",
    icing: "storm",
    place: "rack-a",
    lnLow: null,
    lnHigh: Math.log(1.3),
    atMs,
    trayNumber,
    layer: 0,
    shown: { earliestMin: 40, likelyMin: 70, latestMin: 120 },
    foundMin: { low: null, high: byMin },
  });

  it("D29 says how it compares, how the bands did, and what surprised; the plot's words are in a table", async () => {
    const on = busyBoard();
    const evidence = [skinned(61, 90, on.nowMs), skinned(62, 20, on.nowMs)];
    const { container, timer } = await aPhone("#/kitchen/trust", {
      person: "ida",
      on: { ...on, kitchen: { ...on.kitchen, evidence } },
    });
    expect(screen.getByText(/Of the last 2 films touched, about 1 counts as inside/).textContent).toMatch(
      /too few films/,
    );
    expect(texts(container, ".surprise")).toEqual([
      expect.stringMatching(/^Tray 62, layer 1storm · Rack A.+found by 20 minAt least 20 min sooner/),
    ]);
    expect(texts(container, ".found-table tbody tr")).toHaveLength(2);
    expect(container.querySelectorAll(".plot-bar")).toHaveLength(2 + 1);
    expect(container.querySelectorAll(".plot-area .plot-diamond")).toHaveLength(1);
    expect(container.querySelector("svg[role=img]")?.getAttribute("aria-label")).toMatch(
      /2 films, 1 of them/,
    );
    const line = (): string =>
      container.querySelector(".trust-line")?.textContent?.replaceAll("\u00A0", " ") ?? "";
    expect(line()).toBe("Working it out…");
    await timer.pass(1000);
    expect(line()).toMatch(
      /^Floods here skin (about as the book says|\d+ % (slower|quicker) than the book); the board was right 1 time in 2\.$/,
    );
    // First of all on the page; the method is under it.
    expect(container.querySelector("h1 ~ .trust-line + details.trust-score summary")?.textContent).toBe(
      "How we count",
    );
    expect(texts(container, ".book li")[0]).toMatch(/^This kitchen skins .+ the book \(.+\); 2 films$/);
    screen.getByRole("button", { name: "Dry through" }).click();
    expect(screen.getByText(/No film was touched yet/)).toBeTruthy();
    expect(line()).toBe("How floods dry here is not known yet: each touch test teaches.");
  });

  it("is the lead's", async () => {
    const { container } = await aPhone("#/kitchen/trust");
    expect(texts(container, "h1")).not.toContain("How this kitchen dries");
  });
});

/** Puffin Club's two trays, which are short of time, and what the server would say of them. */
function advised(help: Help[], on: BusyBoard = busyBoard()): Record<string, AdviceAnswer> {
  const finish = {
    earliestMs: on.nowMs + 9 * HOUR,
    likelyMs: on.nowMs + 11 * HOUR,
    latestMs: on.nowMs + 14 * HOUR,
  };
  return { "advice?order=club": { atMs: on.nowMs, advice: { finish, isLate: true, help } } };
}
const toTheFan = (on: BusyBoard = busyBoard()): Help => ({
  kind: "move",
  trayIds: ["n50", "n51"],
  trayNumbers: [50, 51],
  placeId: "fan",
  placeName: "Fan rack",
  gain: { leastMin: 240, likelyMin: 300, mostMin: 420 },
  pickUp: { code: "may-be-late", mostMin: 40 },
  finish: { earliestMs: on.nowMs + 5 * HOUR, likelyMs: on.nowMs + 6 * HOUR, latestMs: on.nowMs + 7 * HOUR },
  meetsPickUp: true,
});

/** Of what was asked of the server, what would help. */
const forAdvice = (asked: readonly string[]): string[] => asked.filter((path) => path.startsWith("advice"));

describe("what would help", () => {
  it("D33 a late order's options say what they win; a move is a tap a tray, or one for all", async () => {
    const { container, socket, server, asked } = await aPhone("#/orders/club", {
      answers: advised([toTheFan()]),
    });
    await settled();
    expect(asked).toContain("advice?order=club");
    expect(texts(container, ".help-card")[0]).toMatch(
      /^Move trays 50 and 51 to Fan rack4–7 h soonerpick-up likely met, at worst 40 min late/,
    );
    screen.getByText("Move…").click();
    screen.getByRole("button", { name: /^Tray 50/, hidden: true }).click();
    await socket.flush();
    expect(server.committed).toMatchObject([{ type: "move-tray", trayId: "n50", placeId: "fan" }]);
    expect(screen.queryByRole("button", { name: /^Tray 50/, hidden: true })).toBeNull();
    screen.getByRole("button", { name: /^Tray 51/, hidden: true }).click();
    await socket.flush();
    expect(server.committed).toHaveLength(2);
    expect(container.querySelector("dialog")).toBeNull();
  });

  it("D32 one tap for all trays is undone by one, whole", async () => {
    const { container, socket, server } = await aPhone("#/orders/club", { answers: advised([toTheFan()]) });
    await settled();
    const standsAt = () => ["n50", "n51"].map((id) => server.kitchen.trays[id]?.placements.at(-1)?.placeId);
    screen.getByText("Move…").click();
    screen.getByRole("button", { name: "All 2 stand there now", hidden: true }).click();
    await socket.flush();
    expect(standsAt()).toEqual(["fan", "fan"]);
    expect(texts(container, ".toast span")[0]).toMatch(/^2 trays to Fan rack /);
    screen.getByText("Undo").click();
    await socket.flush();
    expect(standsAt()).toEqual(["rack-a", "rack-a"]);
    expect(texts(container, ".toast span")[0]).toMatch(/^2 taken back /);
    expect(screen.queryByText("Undo")).toBeNull();
  });

  it("D32 advice follows a move and its undo at once: it is asked for when the server has them, and not shown meanwhile", async () => {
    const { container, socket, asked } = await aPhone("#/orders/club", { answers: advised([toTheFan()]) });
    await settled();
    expect(forAdvice(asked)).toHaveLength(1);
    screen.getByText("Move…").click();
    screen.getByRole("button", { name: "All 2 stand there now", hidden: true }).click();
    await settled();
    // On its way: what the server would say now is about the trays as they stood.
    expect(forAdvice(asked)).toHaveLength(1);
    expect(texts(container, ".help-card")).toEqual([]);
    expect(texts(container, ".helps .quiet")).toEqual(["Working it out…"]);
    await socket.flush();
    await settled();
    expect(forAdvice(asked)).toHaveLength(2);
    expect(texts(container, ".help-card")).toHaveLength(1);

    screen.getByText("Undo").click();
    await settled();
    expect(texts(container, ".help-card")).toEqual([]);
    await socket.flush();
    await settled();
    expect(forAdvice(asked)).toHaveLength(3);
    expect(texts(container, ".help-card")).toHaveLength(1);
  });

  it("D34 where nothing helps it says so", async () => {
    await aPhone("#/orders/club", { answers: advised([]) });
    await settled();
    expect(screen.getByText(/Nothing would make it sooner/)).toBeTruthy();
  });

  it("C4 without a connection no advice is asked for, and that is said", async () => {
    const { socket, asked } = await aPhone("#/orders/club", { answers: {} });
    await settled();
    expect(screen.getByText("The kitchen's server does not answer.")).toBeTruthy();
    const before = forAdvice(asked).length;
    socket.cut();
    await settled();
    expect(screen.getByText(/there is no connection to it/)).toBeTruthy();
    expect(forAdvice(asked)).toHaveLength(before);
  });

  it("an order with time to spare asks nothing", async () => {
    const on = busyBoard();
    const walk = { ...on.forecasts.orders["walk"]!, spareMin: 500, spareWorstMin: 300 };
    const forecasts = { ...on.forecasts, orders: { walk } };
    const { asked } = await aPhone("#/orders/walk", { on: { ...on, forecasts } });
    await settled();
    expect(asked).toEqual([]);
  });
});

describe("past the latest, and air not read", () => {
  /** Tray 10 would have been dry through an hour ago at the latest; the rack was last read at 09:10. */
  function overdue(): BusyBoard {
    const on = busyBoard();
    const { forecasts, nowMs } = on;
    const dryThrough = { earliestMs: nowMs - 4 * HOUR, likelyMs: nowMs - 2 * HOUR, latestMs: nowMs - HOUR };
    const rack = forecasts.places["rack-a"]!;
    return {
      ...on,
      forecasts: {
        ...forecasts,
        films: { ...forecasts.films, "n10/0": { ...forecasts.films["n10/0"]!, dryThrough } },
        places: {
          "rack-a": {
            ...rack,
            basis: "last known",
            trouble: "silent",
            air: { tempC: 22.4, rhPct: 58, atMs: nowMs - 50 * MIN, ageMin: 50 },
          },
        },
      },
    };
  }
  const card = (container: HTMLElement, number: string): string | undefined =>
    texts(container, ".tray-card").find((text) => text.startsWith(number));

  it("K13 every list asks to check by touch, and so does the tray", async () => {
    for (const path of ["#/", "#/orders/walk"]) {
      const { container, unmount } = await aPhone(path, { on: overdue() });
      expect(card(container, "10")).toMatch(/^10Check by touch(Lantern Walk · Moon)?then pack 12/);
      unmount();
    }
    await aPhone("#/t/10", { on: overdue() });
    expect(screen.getByText("Check by touch: past its latest time, 09:00")).toBeTruthy();
  });

  it("D15 where a forecast is shown, it says since when the air was not read", async () => {
    await aPhone("#/t/5", { on: overdue() });
    expect(screen.getByText("no reading since 09:10: times are less sure")).toBeTruthy();
  });
});

it("D16 where another place's air is taken, the tray says whose", async () => {
  const on = busyBoard();
  const rack = { ...on.forecasts.places["rack-a"]!, readAt: "fan" };
  await aPhone("#/t/5", { on: { ...on, forecasts: { ...on.forecasts, places: { "rack-a": rack } } } });
  expect(screen.getByText("no reading here lately: air as at Fan rack")).toBeTruthy();
});

describe("hygrometers", () => {
  const mqtt: MqttSettings = {
    url: "mqtt://192.168.1.20",
    topic: "kitchen/+",
    tempField: "temperature",
    rhField: "humidity",
    tempUnit: "C",
    places: [],
  };
  function listening(): { on: BusyBoard; answers: Record<string, SensorsAnswer> } {
    const on = busyBoard();
    const settings = { ...on.kitchen.settings, mqtt };
    const heard = {
      topic: "kitchen/attic",
      match: "kitchen/attic",
      atMs: on.nowMs,
      outcome: "no such place",
      result: "There is no place called attic.",
    } as const;
    return {
      on: { ...on, kitchen: { ...on.kitchen, settings } },
      answers: { sensors: { connected: true, lastMessageAtMs: on.nowMs, heard: [heard] } },
    };
  }

  it("D19 one that is heard and has no place gets one by one tap", async () => {
    const { socket, server } = await aPhone("#/kitchen/hygrometers", { person: "ida", ...listening() });
    await settled();
    expect(screen.getByText(/Connected\. Last message/)).toBeTruthy();
    screen.getByRole("button", { name: "Fan rack" }).click();
    await socket.flush();
    expect(server.kitchen.settings.mqtt).toEqual({
      ...mqtt,
      places: [{ match: "kitchen/attic", placeId: id("fan") }],
    });
  });

  it("one that has fallen silent is said to be so, whatever air its place goes by since", async () => {
    const on = busyBoard();
    const line = { tempC: 22, rhPct: 50, source: "sensor" } as const;
    const readings = {
      "rack-a": [{ ...line, atMs: on.nowMs - 4 * HOUR }],
      fan: [{ ...line, atMs: on.nowMs - MIN }],
    };
    const kitchen = { ...on.kitchen, readings };
    const { container } = await aPhone("#/kitchen/hygrometers", { person: "ida", on: { ...on, kitchen } });
    const said = texts(container, ".card");
    expect(said.find((text) => text.startsWith("Rack A"))).toContain("Silent for over 30 min");
    expect(said.find((text) => text.startsWith("Fan rack"))).not.toContain("Silent");
  });

  it("D19 a broker's settings that cannot be are refused by their label and what they must be", async () => {
    const { container, server, socket } = await aPhone("#/kitchen/hygrometers", { person: "ida" });
    screen.getByText("Listen to a broker").click();
    const fill = (label: string, value: string): void => {
      const input = screen.getByLabelText<HTMLInputElement>(label);
      input.value = value;
      input.dispatchEvent(new Event("input", { bubbles: true }));
    };
    fill("Broker's address", "192.168.1.20");
    screen.getByText("Save and listen").click();
    expect(texts(container, ".field-error")[0]).toMatch(/^Broker's address must be mqtt:\/\/ or mqtts:\/\//);
    fill("Broker's address", "mqtt://192.168.1.20");
    fill("Topic", "a/#/b");
    screen.getByText("Save and listen").click();
    expect(texts(container, ".field-error")[0]).toMatch(/^Topic must be an MQTT topic/);
    fill("Topic", "a/#");
    screen.getByText("Save and listen").click();
    await socket.flush();
    expect(server.kitchen.settings.mqtt).toMatchObject({ url: "mqtt://192.168.1.20", topic: "a/#" });
  });
});

it("D25 the day sheet has a row a consistency, today's numbers as the server shows them, and what was not read", async () => {
  const { container } = await aPhone("#/kitchen/day");
  expect(texts(container, ".day-row h2")).toEqual(["Flood, 2.4 mm", "Top-coat, 2.4 mm"]);
  expect(texts(container, ".day-row p")[0]).toMatch(/^A flood skins in 45 min–2½ h today/);
  expect(screen.getByText(/Nothing was read yesterday/)).toBeTruthy();
  expect(texts(container, ".for-print")[0]).toMatch(/Practice kitchen/);
});
