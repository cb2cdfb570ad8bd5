import { fireEvent, screen } from "@solidjs/testing-library";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import type { PersonId } from "#shared/ids.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Command } from "#shared/kitchen/model/command.ts";
import { ENGLISH } from "#tests/support/words.tsx";
import { aPhone, texts } from "#tests/support/a-phone.tsx";
import { type BusyBoard, busyBoard } from "#tests/support/board-fixture.ts";
import { id, MIN } from "#tests/support/scene.ts";

const tap = (name: RegExp): void => screen.getByRole("button", { name }).click();
const LIMITS = {
  checkFromS: 151,
  checkToS: 360,
  stopByS: 360,
  capS: 360,
  settles: true,
  why: "tool's cap",
} as const;

/** The busy board with alerts standing. */
function alerted(...alerts: Pick<ActiveAlert, "kind" | "trayNumber">[]) {
  const on = busyBoard();
  const status = alerts.map(
    (alert, k): ActiveAlert =>
      ({
        ...alert,
        key: `a${k}`,
        toolKind: "oven",
        stopByS: 360,
        isPhoneLost: false,
        isInHand: false,
        trays: [7],
        hurry: { is: "little to spare" },
        class: "prompt",
        recipients: { wall: false, everyone: false, leads: false, people: [id("wren")] },
        toolId: id("oven-1"),
        raisedAtMs: on.nowMs,
      }) as ActiveAlert,
  );
  const byKey = Object.fromEntries(status.map((alert) => [alert.key, alert]));
  return { ...on, kitchen: { ...on.kitchen, alerts: byKey } };
}

describe("a thumb that taps twice", () => {
  it("C7 starts the heat, and does not stop it", async () => {
    const { board, socket, timer } = await aPhone("#/t/18/heat");
    tap(/^Low oven/);
    tap(/start the heat/i);
    tap(/^Set to the touch: stop/);
    tap(/^Not set yet: stop/);
    tap(/^Cracked or swollen/);
    await socket.flush();
    expect(board.kitchen().trays["t1"]?.status.stage).toBe("heat-set");
    expect(screen.queryByRole("dialog")).toBeNull();
    await timer.pass(800);
    tap(/^Not set yet: stop/);
    await socket.flush();
    expect(board.kitchen().trays["t1"]?.status.stage).toBe("crusting");
  });

  it("C7 has one cookie set, is not alerted off for it, and does not stop the heat", async () => {
    const { board, socket, timer } = await aPhone("#/t/26/heat");
    await timer.pass(60_000);
    tap(/^Set: next cookie/);
    tap(/^Heat on/);
    tap(/^Set to the touch: stop/);
    await socket.flush();
    expect(board.kitchen().trays["n26"]?.status).toMatchObject({
      heat: { laps: [{}], pausedSinceMs: expect.any(Number) },
    });
    expect(screen.queryByRole("dialog")).toBeNull();
  });

  it("C7 stops the heat, and does not answer for the tool", async () => {
    const { board, socket, timer, went } = await aPhone("#/t/26/heat");
    await timer.pass(60_000);
    tap(/^Set to the touch: stop/);
    tap(/^Still in use/);
    tap(/^Off and on its stand/);
    await socket.flush();
    expect(went).toEqual([]);
    expect(board.kitchen().tools["hot-1"]?.use.status).toBe("on");
    await timer.pass(800);
    tap(/^Off and on its stand/);
    await socket.flush();
    expect(board.kitchen().tools["hot-1"]?.use.status).toBe("off");
    expect(went).toEqual(["t/26"]);
  });
});

describe("H41 cookie by cookie", () => {
  it("H41 after a cookie is set no clock runs until the heat is on the next one", async () => {
    const { board, container, socket, timer } = await aPhone("#/t/26/heat");
    await timer.pass(60_000);
    tap(/^Set: next cookie/);
    await socket.flush();
    expect(container.querySelector("[role=timer]")).toBeNull();
    expect(container.textContent).toContain("Cookie 2: flood it if it is not, then tap “Heat on”.");
    expect(screen.queryByRole("button", { name: /^Not set yet/ })).toBeNull();
    await timer.pass(90_000);
    tap(/^Heat on/);
    await socket.flush();
    expect(board.kitchen().trays["n26"]?.status).toMatchObject({ heat: { laps: [{}] } });
    expect(screen.getByRole("timer").textContent).toContain("0:00");
    await timer.pass(5_000);
    expect(screen.getByRole("timer").textContent).toContain("0:05");
  });

  it("H41 it can be stopped there, and the list of heat says what it waits for", async () => {
    const { board, container, socket, timer } = await aPhone("#/t/26/heat");
    await timer.pass(60_000);
    tap(/^Set: next cookie/);
    await socket.flush();
    await timer.pass(800);
    const stop = screen.getByRole("button", { name: /^Set to the touch: stop/ });
    expect(stop.textContent).toContain("1 of");
    stop.click();
    await socket.flush();
    expect(board.kitchen().trays["n26"]?.status.stage).not.toBe("heat-set");
    expect(container.textContent).not.toContain("Heat on");
  });
});

it("H41 among the trays, one between two cookies waits for the heat and counts no time", async () => {
  const on = busyBoard();
  const n26 = on.kitchen.trays["n26"]!;
  if (n26.status.stage !== "heat-set") throw new Error(n26.status.stage);
  const status = { ...n26.status, heat: { ...n26.status.heat, pausedSinceMs: on.nowMs - MIN } };
  const trays = { ...on.kitchen.trays, n26: { ...n26, status } };
  const { container } = await aPhone("#/", { on: { ...on, kitchen: { ...on.kitchen, trays } } });
  const card = texts(container, '.tray-card[data-tone="heat"]').find((text) => text.startsWith("26"));
  expect(card).toContain("Waiting for “Heat on”");
  expect(card).not.toMatch(/\d:\d\d/);
});

it("H42 before the heat starts the phone says when to stop, and how soon a jet held still is too hot", async () => {
  const on = busyBoard();
  const { n26: _gone, ...trays } = on.kitchen.trays;
  const { container } = await aPhone("#/t/18/heat", { on: { ...on, kitchen: { ...on.kitchen, trays } } });
  const said = (): string => texts(container, ".heat-limits").join(" ");
  expect(said()).not.toContain("stop by");
  tap(/^Hot-air tool 1/);
  expect(said()).toMatch(
    /stop by \d:\d\d.*Held still on one spot, icing is too hot in 0:\d\d: keep it moving\./,
  );
  tap(/^Low oven/);
  expect(said()).toMatch(/stop by \d:\d\d/);
  expect(said()).not.toContain("Held still");
});

it("what was said of a tray's last heat is gone once its next has begun", async () => {
  const { board, server, socket, timer } = await aPhone("#/t/26/heat");
  await timer.pass(60_000);
  tap(/^Set to the touch: stop/);
  await socket.flush();
  expect(screen.getByText(/Tray 26 heat-set ended/)).toBeTruthy();
  const again = {
    commandId: id("c"),
    type: "start-heat-set",
    trayId: id("n26"),
    toolId: id("hot-1"),
  } as const;
  server.submit(again as unknown as Command, id("wren"));
  await socket.flush();
  expect(board.kitchen().trays["n26"]?.status.stage).toBe("heat-set");
  expect(screen.queryByText(/heat-set ended/)).toBeNull();
});

it("C10 over one tray's timer the warning of another's heat stands, and not the tray's own", async () => {
  const on = alerted(
    { kind: "heat-near-stop", trayNumber: 5 },
    { kind: "heat-near-stop", trayNumber: 26 },
    { kind: "waiting-long", trayNumber: 7 },
  );
  const { container } = await aPhone("#/t/26/heat", { on });
  expect(texts(container, ".alert-number")).toEqual(["5"]);
  expect(texts(container, ".alert strong")).toEqual(["Take it out"]);
});

it("C10 C11 an alert of heat is seen and never put off, and sends no finger into the oven", async () => {
  const on = alerted({ kind: "heat-near-stop", trayNumber: 5 }, { kind: "waiting-long", trayNumber: 7 });
  const { container } = await aPhone("#/", { on });
  const acts = [...container.querySelectorAll(".alert")].map((alert) =>
    texts(alert as HTMLElement, "button"),
  );
  expect(acts).toEqual([["Seen"], ["Seen", "In 10 min"]]);
  expect(texts(container, ".alert")[0]).toContain("With dry mitts, then touch it. Stop by 6:00");
});

describe("C19 alerts that were seen", () => {
  const seen = { acknowledged: { by: id<PersonId>("wren"), atMs: 0 } };
  const board = (...changes: Partial<ActiveAlert>[]): BusyBoard => {
    const on = alerted(
      { kind: "bubbles-last-chance", trayNumber: 18 },
      { kind: "heat-running-long", trayNumber: 7 },
    );
    const alerts = Object.entries(on.kitchen.alerts).map(([key, alert], k) => [
      key,
      { ...alert, ...changes[k] },
    ]);
    return { ...on, kitchen: { ...on.kitchen, alerts: Object.fromEntries(alerts) as Kitchen["alerts"] } };
  };

  it("fold into one line on the page, what is not seen stays a card", async () => {
    const { container } = await aPhone("#/", { on: board(seen, {}) });
    expect(texts(container, ".page .seen-alerts summary")).toEqual(["1 alert seen: Tray 18: Needle bubbles"]);
    expect(texts(container, ".page .alerts > .alert .alert-words")).toEqual([
      "Past its stop-byStop the heat. Take the heat off, look for cracks",
    ]);
    expect(container.querySelector(".pinned")).toBeNull();
  });

  it("are pinned in that line where one is urgent, and none is on the page", async () => {
    const { container } = await aPhone("#/", { on: board(seen, { ...seen, class: "urgent" }) });
    expect(texts(container, ".pinned > .seen-alerts summary")).toEqual([
      "2 alerts seen: Tray 7: Stop the heat; Tray 18: Needle bubbles",
    ]);
    expect(container.querySelector(".page .alerts")).toBeNull();
  });

  it("an urgent one that is not seen is pinned whole, in Room as well", async () => {
    for (const hash of ["#/", "#/room"]) {
      const { container, unmount } = await aPhone(hash, { on: board({}, { class: "urgent" }) });
      expect(texts(container, ".pinned > .alert .alert-words")).toEqual([
        "Stop the heatPast its stop-by. Take the heat off, look for cracks",
      ]);
      unmount();
    }
  });
});

it("C19 what the server cannot check stands above the page, beside what is urgent", async () => {
  const { container, server, socket } = await aPhone("#/room");
  server.tell(server.change({ problems: [{ code: "rule-failed", group: "heat" }] }));
  await socket.flush();
  expect(texts(container, ".body > .problems .lost-bar")).toEqual([
    "Traytide cannot check heat alarms: watch the tools yourselves.",
  ]);
  expect(texts(container, ".page .lost-bar")).toEqual([]);
});

describe("the words of a heat", () => {
  it("C11 a chamber's tray is taken out before it is touched, a cookie under hot air is not", () => {
    expect(ENGLISH.heat.touch("oven", LIMITS)).toBe("out with dry mitts, then touch 2:31–6:00");
    expect(ENGLISH.heat.touch("warm-cabinet", LIMITS)).toBe("out with dry mitts, then touch 2:31–6:00");
    expect(ENGLISH.heat.touch("hot-air", { ...LIMITS, checkFromS: 90, checkToS: 150 })).toBe(
      "check touch 1:30–2:30",
    );
  });

  it("H6 stop-by is named before it is past, and the cap only where it is another figure", () => {
    expect(ENGLISH.heat.stopByLine(LIMITS, true)).toBe("Stop by 6:00, when the whole room is alerted.");
    expect(ENGLISH.heat.stopByLine({ ...LIMITS, stopByS: 160 }, true)).toBe(
      "Stop by 2:40, when the whole room is alerted. Hard cap 6:00.",
    );
    expect(ENGLISH.heat.stopByLine(LIMITS, false)).toBe(
      "Stop by 6:00: no connection, the room is not alerted.",
    );
  });
});

describe("the words of a window to check by touch", () => {
  const hotAir = (checkFromS: number, checkToS: number, stopByS = 180): string =>
    ENGLISH.heat.touch("hot-air", { ...LIMITS, checkFromS, checkToS, stopByS });

  it.each([
    [0, 0, "likely set already: check touch now"],
    [0, 0.9, "likely set already: check touch now"],
    [0, 12.4, "check touch by 0:12"],
    [0.6, 1.4, "check touch by 0:01"],
    [29.9, 29.99, "check touch at 0:29"],
    [29.9, 30, "check touch 0:29–0:30"],
  ])("%f to %f s: %s", (fromS, toS, words) => expect(hotAir(fromS, toS)).toBe(words));

  it("of a chamber, the tray still comes out first", () => {
    expect(ENGLISH.heat.touch("oven", { ...LIMITS, checkFromS: 0, checkToS: 0 })).toBe(
      "likely set already: out with dry mitts, then touch",
    );
  });

  it("no limits that can be are told as a window from nought to nought, or from later to sooner", () => {
    const second = fc.double({ min: 0, max: 400, noNaN: true });
    fc.assert(
      fc.property(second, second, second, (a, b, stopByS) => {
        const [checkFromS, checkToS] = [Math.min(a, b, stopByS), Math.min(Math.max(a, b), stopByS)];
        const words = hotAir(checkFromS, checkToS, stopByS);
        const [from, to] = [...words.matchAll(/(\d+):(\d\d)/g)].map(([, m, s]) => Number(m) * 60 + Number(s));
        expect(words).not.toMatch(/0:00/);
        if (to !== undefined) expect(from).toBeLessThan(to);
      }),
    );
  });

  it("a film that had skinned before its heat is told so in the ring", async () => {
    const on = busyBoard();
    const tray = on.kitchen.trays["n26"]!;
    if (tray.status.stage !== "heat-set") throw new Error("tray 26 is not under heat");
    const limits = { ...tray.status.heat.limits, checkFromS: 0, checkToS: 0, stopByS: 20, settles: true };
    const heat = { ...tray.status.heat, limits };
    const trays = { ...on.kitchen.trays, n26: { ...tray, status: { ...tray.status, heat } } };
    const { container } = await aPhone("#/t/26/heat", { on: { ...on, kitchen: { ...on.kitchen, trays } } });
    expect(texts(container, ".ring-words")).toEqual(["likely set already: check touch now", "stop by 0:20"]);
    expect(container.textContent).not.toContain("0:00–");
  });
});

describe("a tray some of whose cookies had their heat", () => {
  const line = (container: HTMLElement): string => texts(container, ".layer-line strong").join(" | ");
  /** Tray 18, twelve cookies, its layer 3 in hand, with sections that may sink; three of them set by hot air. */
  async function threeSet() {
    const on = busyBoard();
    // The tool is over tray 26: it is free again.
    const { n26: _gone, ...trays } = on.kitchen.trays;
    const phone = await aPhone("#/t/18", { on: { ...on, kitchen: { ...on.kitchen, trays } } });
    const does = async (type: string, more: object = {}): Promise<void> => {
      const command = { commandId: `${type}-${phone.timer.nowMs()}`, type, trayId: "t1", ...more };
      const answer = phone.server.submit(command as unknown as Command, id("wren"));
      expect(answer).toMatchObject({ ok: true });
      await phone.socket.flush();
    };
    await does("start-flooding", { acceptRisk: true });
    expect(line(phone.container)).toContain("Heat-set the first cookie by 10:06, 6 min left");
    await does("start-heat-set", { toolId: "hot-1" });
    for (const _ of [1, 2]) {
      await phone.timer.pass(30_000);
      await does("next-cookie");
      await does("heat-on");
    }
    expect(line(phone.container)).toContain("2 of 12 set");
    await phone.timer.pass(30_000);
    await does("end-heat-set", { result: "set" });
    return { ...phone, does };
  }

  it("I12 says how many are set, and by when the next is to be", async () => {
    const { container } = await threeSet();
    expect(line(container)).toContain("3 of 12 set. Heat-set the next by 10:07, 6 min left");
    expect(container.textContent).not.toContain("first cookie");
  });

  it("I12 says so once the layer is laid, until a finger finds it set", async () => {
    const { container, timer, does } = await threeSet();
    await timer.pass(30_000);
    await does("flooded");
    expect(line(container)).toContain("Layer 3: 3 of 12 set");
    await timer.pass(60_000);
    await does("touch-test", { finding: "skinned" });
    expect(line(container)).not.toContain("of 12 set");
  });

  it("says nothing of it once all had their heat", async () => {
    const { container, timer, does } = await threeSet();
    await does("start-heat-set", { toolId: "hot-1" });
    for (let cookie = 4; cookie < 12; cookie += 1) {
      await timer.pass(30_000);
      await does("next-cookie");
      await does("heat-on");
    }
    await timer.pass(30_000);
    await does("end-heat-set", { result: "set" });
    expect(line(container)).not.toContain("of 12 set");
  });
});

describe("a tool's temperature", () => {
  /** The oven as it was read so long after the moment it was switched on, and that so long ago. */
  const ovenRead = (afterMin: number, agoMin: number) => {
    const on = busyBoard();
    const oven = on.kitchen.tools["oven-1"]!;
    const atMs = on.nowMs - agoMin * MIN;
    const use = {
      status: "on",
      holder: id<PersonId>("wren"),
      onAtMs: atMs - afterMin * MIN,
      askedAtMs: atMs,
    } as const;
    const tools = { ...on.kitchen.tools, "oven-1": { ...oven, use, lastTemperature: { tempC: 22, atMs } } };
    return { ...on, kitchen: { ...on.kitchen, tools } as Kitchen };
  };
  const cardOf = async (on: BusyBoard): Promise<string> => {
    await aPhone("#/heat", { on });
    return screen.getByRole("button", { name: /^Low oven/ }).textContent ?? "";
  };

  it("C12 is what it is set to, with what was read since it was switched on, and of late", async () => {
    expect(await cardOf(ovenRead(5, 3))).toMatch(/on 8 min, Wrenread 22 °C at 09:57set 65.6 °C$/);
  });

  it.each([
    ["before it was switched on", -5, 8],
    ["half an hour ago", 5, 30],
  ])("C12 is not what was read %s", async (_, afterMin, agoMin) => {
    expect(await cardOf(ovenRead(afterMin, agoMin))).toMatch(/Wrenset 65.6 °C$/);
  });

  it("is entered one tap away from the caution that asks for it", async () => {
    const { board, socket } = await aPhone("#/t/18/heat");
    tap(/^Low oven/);
    expect(screen.getByText("Read the oven's temperature before the tray goes in.")).toBeTruthy();
    tap(/^Enter its temperature/);
    fireEvent.input(screen.getByLabelText(/^Its temperature/), { target: { value: "64" } });
    tap(/^Enter$/);
    await socket.flush();
    expect(board.kitchen().tools["oven-1"]?.lastTemperature?.tempC).toBe(64);
    expect(screen.queryByRole("dialog")).toBeNull();
    tap(/^Hot-air/);
    expect(screen.queryByText(/^Enter its temperature/)).toBeNull();
  });
});

it("on the way into the heat no tab lies under its buttons", async () => {
  const { container } = await aPhone("#/t/18/heat");
  expect(container.querySelector(".tabs")).toBeNull();
});

it.each(["settings", "trust", "hygrometers"])(
  "K4 #/kitchen/%s tells a decorator whose page it is",
  async (page) => {
    const { container } = await aPhone(`#/kitchen/${page}`);
    expect(texts(container, "main")).toEqual(["This page is for the kitchen's leads."]);
  },
);
