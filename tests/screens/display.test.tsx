import { cleanup, fireEvent, render, screen } from "@solidjs/testing-library";
import { createSignal } from "solid-js";
import type { JSX } from "solid-js";
import { afterEach, describe, expect, it, vi } from "vitest";
import type { OutboxItem } from "#shared/client/sync/outbox.ts";
import type { TrayStatus } from "#shared/kitchen/model/state.ts";
import { asId, type CommandId, type PersonId, type TrayId } from "#shared/ids.ts";
import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import { BoardScreen } from "#display/view/board-screen.tsx";
import { moreWays } from "#display/view/hands.tsx";
import { Join } from "#display/app/join.tsx";
import { joinCodeIn } from "#shared/client/screen/joining.ts";
import { soundAlerts } from "#display/app/sound.ts";
import { HandTimer } from "#tests/support/sockets.ts";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";
import { ENGLISH, InEnglish } from "#tests/support/words.tsx";
import { handBoard, landed } from "./display-board.ts";
import {
  bareKitchen,
  fullKitchen,
  heating,
  MIN,
  normalKitchen,
  NOW,
  urgent,
  urgentKitchen,
  withTrays,
  type Made,
} from "./display-kitchens.ts";

afterEach(cleanup);

function show(made: Made, more: { isBench?: boolean; answer?: Parameters<typeof handBoard>[1] } = {}) {
  const hand = handBoard(made, more.answer);
  const timer = new HandTimer(NOW);
  const { container } = render(() => (
    <InEnglish place={() => hand.board.kitchen().settings}>
      <BoardScreen
        board={hand.board}
        screen={() => ({ width: 1920, height: 1080 })}
        measure={() => (text, weight) => (weight === 800 ? 0.64 : 0.52) * text.length}
        invite={async () => ({ origin: "http://192.168.1.20:4310", joinCode: "PLUM-7" })}
        isBench={more.isBench ?? false}
        timer={timer}
        corner={(): JSX.Element => <i />}
      />
    </InEnglish>
  ));
  const texts = (selector: string): string[] =>
    [...container.querySelectorAll(selector)].map(
      (element) => element.textContent?.replaceAll(/\s+/g, " ").trim() ?? "",
    );
  return { ...hand, container, texts, timer, settle: () => timer.pass(800) };
}

describe("the wall", () => {
  it("shows what wants hands, what is coming in, the air and the orders", () => {
    const { container, texts } = show(normalKitchen());
    expect(texts(".alert")).toEqual([
      "14Stop the heat 2:48Wren · hot-air bench 1 · Past its stop-by · Take the heat off, look for cracks",
    ]);
    expect(texts(".tile .number").slice(0, 3)).toEqual(["7", "22", "16"]);
    expect(texts('.tile[data-is="check-by-touch"] .act')).toEqual(["Check by touch"]);
    expect(texts(".lane-name")[0]).toBe("Floodingneedle while wet");
    expect(texts('[data-lane="crusting"] .pill')).toContain("27");
    expect(texts(".air p")[1]).toBe("A 2.5 mm flood skins in 1–2 h, dries through in 12–18 h");
    expect(texts(".change b")).toEqual(["Humidity up 9 points since 12:30"]);
    expect(container.querySelector(".top")?.getAttribute("data-news")).toBe("true");
    expect(texts(".order .spare")[0]).toBe("40 min–2 h late");
    expect(texts(".live p")[0]).toBe("live · 2 phones");
  });

  it("A3 names every tray past its stop-by, though not every alert has a box; trays not begun make room", () => {
    const late = [3, 4, 5, 6, 7, 8];
    const { kitchen, forecasts } = withTrays(bareKitchen({ diagonalCm: 140, farthestM: 4 }), [
      ...late.map((number) => ({ number, design: "lantern", films: 1, status: heating(1, 170 + number) })),
      { number: 70, design: "lantern", films: 0 },
    ]);
    const alerts = late.map((number) =>
      urgent("heat-running-long", 170 + number, { trayNumber: number, trayId: asId(`t${number}`) }),
    );
    const byKey = Object.fromEntries(alerts.map((alert) => [alert.key, alert]));
    const { texts, setState } = show({ kitchen: { ...kitchen, alerts: byKey }, forecasts });
    const boxed = texts(".alert .number");
    expect(boxed).toEqual(["8", "7", "6", "5"]);
    expect(texts(".alerts .more")[0]).toBe("and 2 more · Stop the heat 3–4");
    expect([texts(".tile"), texts(".none"), texts(".hands > .more")]).toEqual([[], [], ["1 to start: 70"]]);
    const inLane = texts('[data-lane="heat-set"] .pill[data-overdue] b').join();
    expect(inLane).toBe("3–8");
    expect(texts('[data-lane="heat-set"] [data-left="true"]')).toEqual([]);
    setState({ kitchen: { ...kitchen, alerts: {} }, forecasts });
    expect(texts(".tile .number")).toEqual(["70"]);
  });

  it("D28 after opening the air says the day's line, once a minute; news of the air goes before it for a quarter of an hour", () => {
    const { kitchen, forecasts } = normalKitchen();
    const { change, ...quiet } = forecasts;
    const opened = {
      ...kitchen.settings,
      opening: Array.from({ length: 7 }, () => ({ fromMin: 840, toMin: 1440 })),
    };
    const open: Made = {
      kitchen: { ...kitchen, settings: { ...opened, timeZone: "UTC" } },
      forecasts: quiet,
    };
    const { texts, setState, setNowMs } = show(open);
    const place = kitchen.places[Object.keys(quiet.places)[0]!]!.name;
    expect(texts(".air p")[0]).toContain(`${place} · Air at`);
    expect(texts(".air p")[1]).toMatch(/^Floods skin in 1–2 h; dry through /);
    setState({ ...open, forecasts: { ...quiet, change: { ...change!, atMs: NOW } } });
    expect(texts(".air p")[1]).toMatch(/^A 2.5 mm flood skins in/);
    expect(texts(".change b")).toHaveLength(1);
    setNowMs(NOW + 15 * MIN);
    expect(texts(".air p")[1]).toMatch(/^Floods skin in 1–2 h; dry through /);
    expect(texts(".change b")).toEqual([]);
    setState(open);
    setNowMs(NOW + 80 * MIN);
    expect(texts(".air p")[1]).toMatch(/^A 2.5 mm flood skins in/);
  });

  it("C4 says it is stale after 5 s without a word, and stops promising", () => {
    const { texts, container, setNowMs, setConnection } = show(normalKitchen());
    setConnection({ is: "lost" });
    setNowMs(NOW + 4000);
    expect(texts(".stale-line")).toEqual([]);
    setNowMs(NOW + 6000);
    expect(texts(".stale-line")).toEqual([
      "No word from the kitchen's server since 14:12:00. Times below are not live.",
    ]);
    expect(container.textContent).not.toContain("Ready for hands");
    expect(texts(".live p")[0]).toContain("reconnecting");
    expect(texts(".tile .wait").join("")).toBe("");
    expect(texts(".alert .ran").join("")).toBe("");
    expect(texts(".order .spare").join("")).toBe("");
    expect(container.querySelector(".wall")?.getAttribute("data-stale")).toBe("true");
  });

  it("P4 A14 a server that cannot save is not called live", () => {
    const { texts, setCannotSave } = show(normalKitchen());
    setCannotSave(true);
    expect(texts(".stale-line")[0]).toMatch(/^The server cannot save/);
    expect(texts(".live p")[0]).toBe("cannot save · 2 phones");
    expect(texts(".alert")).toHaveLength(1);
    setCannotSave(false);
    expect(texts(".stale-line")).toEqual([]);
    expect(texts(".live p")[0]).toBe("live · 2 phones");
  });

  it("A27 what the server cannot check stands across the top, and the alerts it can still stand", () => {
    const { texts, setProblems, setCannotSave } = show(normalKitchen());
    setProblems([{ code: "rule-failed", group: "heat" }]);
    expect(texts(".stale-line")).toEqual(["Traytide cannot check heat alarms: watch the tools yourselves."]);
    expect(texts(".alert")).toHaveLength(1);
    setCannotSave(true);
    expect(texts(".stale-line")[0]).toMatch(/^The server cannot save: .* cannot check heat alarms/);
    setCannotSave(false);
    setProblems([]);
    expect(texts(".stale-line")).toEqual([]);
  });

  it("C4 while stale no tray becomes ready; once heard again the board catches up", () => {
    const made = withTrays(bareKitchen(), [{ number: 5, design: "lantern", films: 1, wait: [1, 2, 4] }]);
    const { texts, setNowMs, setConnection, setHeardAtMs } = show(made);
    expect(texts(".tile")).toEqual([]);
    setConnection({ is: "lost" });
    setNowMs(NOW + 3 * MIN);
    expect(texts(".tile")).toEqual([]);
    setHeardAtMs(NOW + 3 * MIN);
    setConnection({ is: "live" });
    expect(texts(".tile .number")).toEqual(["5"]);
  });

  it("C21 closed hours are hatched on the axis, and pick-ups are flags on it; what of the hours is hatched is said", () => {
    const { kitchen, forecasts } = normalKitchen();
    const opening = Array.from({ length: 7 }, () => ({ fromMin: 360, toMin: 1200 }));
    const made = { kitchen: { ...kitchen, settings: { ...kitchen.settings, opening } }, forecasts };
    const { container, texts, setState } = show(made);
    expect(container.querySelectorAll(".rules .closed")).toHaveLength(1);
    expect(container.querySelectorAll(".rules .pole")).toHaveLength(2);
    expect(texts(".flag").join(" ")).toBe("Lantern Walk 09:00 · Tidepool party 12:00");
    expect(texts(".coming .heading")[0]).toContain("hatched: closed");
    const always = opening.map(() => ({ fromMin: 0, toMin: 1440 }));
    setState({ kitchen: { ...kitchen, settings: { ...kitchen.settings, opening: always } }, forecasts });
    expect(container.querySelectorAll(".rules .closed")).toHaveLength(0);
    expect(texts(".coming .heading")[0]).not.toContain("hatched");
  });

  it("C22 empty lanes are not shown where another would leave a tray out", () => {
    const under = (trays: number): Made =>
      withTrays(
        bareKitchen(),
        Array.from({ length: trays }, (_, k) => ({
          number: k + 1,
          design: "lantern",
          films: 1,
          status: heating(1, 20 + k),
        })),
      );
    const { container, texts, setState } = show(under(3));
    const lanes = (): string[] =>
      [...container.querySelectorAll<HTMLElement>(".lane:not([hidden])")].map(
        (lane) => lane.dataset["lane"]!,
      );
    expect(lanes()).toEqual(["flooding", "heat-set", "crusting", "full-dry"]);
    setState(under(40));
    expect(lanes()).toEqual(["heat-set"]);
    const shown = container.querySelectorAll(".pill").length;
    expect(shown).toBeGreaterThanOrEqual(9);
    expect(texts('[data-left="true"]')).toEqual([`and ${40 - shown} more`]);
  });

  it("C23 a tile says order, design and colour, where its tray stands and how long it waits, and draws its cookie", () => {
    const { container } = show(normalKitchen());
    const tile = container.querySelector(".tile")!;
    const text = (part: string): string =>
      tile.querySelector(part)!.textContent.replaceAll(/\s+/g, " ").trim();
    expect(text(".where")).toBe("Rack A · 3 · waiting 12 min");
    expect(text(".act")).toBe("Flood layer 2");
    expect(text(".foot")).toBe("Lantern Walk · sea glass");
    expect(text(".look")).toBe("Lantern");
    expect(tile.querySelector("img")!.alt).toBe(
      "Lantern: storm outline laid, sea-glass flood next, butter flood and storm outline to come",
    );
  });

  it("C23 an order's card shows its designs, finished", () => {
    const { container } = show(normalKitchen());
    const cards = [...container.querySelectorAll(".order")];
    const looks = cards.map((card) => [...card.querySelectorAll("img")].map(({ alt }) => alt));
    expect(looks[2]).toEqual(["Puffin: all layers laid"]);
  });

  it("C20 a wide pill draws its trays' cookie", () => {
    const { container } = show(
      withTrays(bareKitchen(), [{ number: 5, design: "puffin", films: 2, wait: [20, 60, 200] }]),
    );
    expect(container.querySelector<HTMLImageElement>(".pill img")!.alt).toBe(
      "Puffin: storm flood and milk flood laid, coral detail next",
    );
  });

  it("a pill keeps its element while it drifts, and moves by a transform alone", () => {
    const made = withTrays(bareKitchen(), [{ number: 5, design: "lantern", films: 1, wait: [20, 30, 45] }]);
    const { container, setNowMs } = show(made);
    const pill = container.querySelector<HTMLElement>(".pill")!;
    const xOf = (): number => Number(/translate\(([\d.]+)px/.exec(pill.style.transform)?.[1]);
    const before = xOf();
    setNowMs(NOW + 5 * MIN);
    expect(container.querySelector(".pill")).toBe(pill);
    expect(xOf()).toBeLessThan(before);
  });

  it("a forecast that moves puts a word on its pill", () => {
    const at = (likely: number): Made =>
      withTrays(bareKitchen(), [
        { number: 5, design: "lantern", films: 1, wait: [likely - 10, likely, likely + 15] },
      ]);
    const { texts, setState } = show(at(60));
    expect(texts(".pill")).toEqual(["5"]);
    setState(at(80));
    expect(texts(".pill")).toEqual(["5later"]);
  });

  it("a second's tick over 300 trays touches few nodes: labels and places are memoised", async () => {
    const { container, setNowMs } = show(fullKitchen());
    await Promise.resolve();
    const changed: MutationRecord[] = [];
    const watch = new MutationObserver((records) => changed.push(...records));
    watch.observe(container, { subtree: true, childList: true, characterData: true, attributes: true });
    setNowMs(NOW + 1000);
    changed.push(...watch.takeRecords());
    watch.disconnect();
    expect(changed.filter(({ type }) => type !== "attributes")).toEqual([]);
    expect(changed.length).toBeLessThan(20);
  });

  it("a practice kitchen says so, and how fast its clock runs", () => {
    const { texts, setPractice } = show(normalKitchen());
    expect(texts(".practice")).toEqual([]);
    setPractice(true);
    expect(texts(".practice")).toEqual(["practice kitchen · 60×"]);
  });

  it("C34 an empty kitchen says how to begin, with what phones join with", async () => {
    const empty = withTrays(bareKitchen(), []);
    const { container } = show({ ...empty, kitchen: { ...empty.kitchen, tools: {}, isSetUp: false } });
    expect(container.querySelector("h1")?.textContent).toBe("Set up the kitchen on a phone");
    await screen.findByText("http://192.168.1.20:4310/phone/");
    expect(container.textContent).toContain("PLUM-7");
    expect(container.querySelector(".qr svg")?.getAttribute("aria-label")).toMatch(/#join=PLUM-7$/);
  });

  it("H39 with every tray packed a tool that is still on is shown, not how to begin", () => {
    const { container } = show(withTrays(bareKitchen(), []));
    expect(container.querySelector(".tools")?.textContent).toMatch(/ on 10 min, Wren/);
    expect(container.querySelector(".begin")).toBeNull();
  });

  it("C4 H38 while stale what was hot or on stays on the wall, as last heard", () => {
    const { texts, setNowMs, setConnection } = show(withTrays(bareKitchen(), []));
    setConnection({ is: "lost" });
    setNowMs(NOW + 6000);
    expect(texts(".tools").join()).toMatch(/^As last heard: .* on 10 min, Wren/);
  });

  it("a wall that only shows cannot be tapped", () => {
    const { container } = show(normalKitchen());
    fireEvent.click(container.querySelector(".tile")!);
    expect(container.querySelector('[role="dialog"]')).toBeNull();
  });
});

describe("a bench", () => {
  it("a tile opens the tray's next act and sends it, and can be undone", async () => {
    const { container, inputs, settle } = show(normalKitchen(), { isBench: true });
    fireEvent.click(container.querySelector(".tile")!);
    await settle();
    fireEvent.click(screen.getByRole("button", { name: "Flood layer 2" }));
    expect(inputs).toEqual([{ type: "start-flooding", trayId: "t7" }]);
    expect(container.querySelector('[role="dialog"]')).toBeNull();
    fireEvent.click(screen.getByRole("button", { name: "Undo" }));
    expect(inputs[1]).toEqual({ type: "take-back", trayId: "t7", actId: "act-1" });
  });

  /** A kitchen with a bench screen in it, which the board acts as. */
  const withBench = (made: Made): Made => {
    const sol = { id: asId<PersonId>("sol"), name: "Sol", role: "decorator" as const };
    const bench = {
      id: asId<PersonId>("bench"),
      name: "Bench 2",
      role: "decorator" as const,
      isBench: true as const,
    };
    return { ...made, kitchen: { ...made.kitchen, people: { ...made.kitchen.people, bench, sol } } };
  };

  it("C36 a bench asks once who is tapping, and again once another is to be chosen or after a quarter of an hour", async () => {
    const { container, inputs, settle, timer } = show(withBench(normalKitchen()), { isBench: true });
    const open = async (): Promise<void> => {
      fireEvent.click(container.querySelector(".tile")!);
      await settle();
    };
    await open();
    expect(screen.queryByRole("button", { name: "Flood layer 2" })).toBeNull();
    fireEvent.click(screen.getByRole("button", { name: "Wren" }));
    await settle();
    fireEvent.click(screen.getByRole("button", { name: "Flood layer 2" }));
    expect(inputs.at(-1)).toEqual({ type: "start-flooding", trayId: "t7", doneBy: "wren" });
    fireEvent.click(screen.getByRole("button", { name: "Undo" }));
    expect(inputs.at(-1)).toMatchObject({ type: "take-back", doneBy: "wren" });
    await open();
    fireEvent.click(screen.getByRole("button", { name: /someone else/ }));
    await settle();
    fireEvent.click(screen.getByRole("button", { name: "Sol" }));
    await settle();
    fireEvent.click(screen.getByRole("button", { name: "Flood layer 2" }));
    expect(inputs.at(-1)).toMatchObject({ doneBy: "sol" });
    await timer.pass(16 * MIN);
    await open();
    expect(screen.getByRole("dialog").textContent).toContain("Who is tapping?");
  });

  it("C36 a bench's sheet has what a tray's page has: its layer and colour, touches, heat with its cautions, a move, a problem", async () => {
    const { container, inputs, settle } = show(normalKitchen(), { isBench: true });
    const tap = async (name: string | RegExp): Promise<void> => {
      fireEvent.click(screen.getByRole("button", { name }));
      await settle();
    };
    const open = async (): Promise<void> => {
      fireEvent.click(container.querySelector(".tile")!);
      await settle();
    };
    await open();
    expect(screen.getByRole("dialog").textContent).toMatch(/Layer 2 of \d/);
    expect(screen.getByRole("dialog").querySelector(".swatch")).not.toBeNull();
    await tap("Problem");
    await tap(/^Cracked/);
    await tap("3");
    expect(inputs.at(-1)).toEqual({ type: "report-problem", trayId: "t7", problem: "cracked", count: 3 });
    await open();
    await tap("Move");
    const [place] = [...container.querySelectorAll<HTMLElement>(".sheet .choices button")];
    fireEvent.click(place!);
    expect(inputs.at(-1)).toMatchObject({ type: "move-tray", trayId: "t7" });
    await open();
    await tap("touch test");
    await tap("Skinned");
    expect(inputs.at(-1)).toEqual({ type: "touch-test", trayId: "t7", finding: "skinned" });
    await open();
    await tap("Heat-set");
    const sent = inputs.length;
    await tap(/hot-air bench 1/);
    expect(inputs.length).toBe(sent);
    expect(container.querySelectorAll(".heat-cautions li").length).toBeGreaterThan(2);
    await tap("Start the heat");
    expect(inputs.at(-1)).toMatchObject({ type: "start-heat-set", trayId: "t7" });
  });

  it("A3 an alert of a tray opens what stops its heat, and so does its pill; an alert of no tray opens nothing", async () => {
    const { container, inputs, settle } = show(urgentKitchen(), { isBench: true });
    expect(screen.getAllByRole("button", { name: /^Tray \d+: open$/ })).toHaveLength(1);
    fireEvent.click(screen.getByRole("button", { name: "Tray 14: open" }));
    await settle();
    fireEvent.click(screen.getByRole("button", { name: "Stop: not set yet" }));
    expect(inputs).toEqual([{ type: "end-heat-set", trayId: "t14", result: "not yet" }]);
    fireEvent.click(container.querySelector('.alert:not([data-opens="true"])')!);
    expect(screen.queryByRole("dialog")).toBeNull();
    fireEvent.click(container.querySelector('.alert[data-opens="true"] .act')!);
    expect(screen.getByRole("dialog").textContent).toContain("14");
    cleanup();
    const wall = show(urgentKitchen());
    fireEvent.click(wall.container.querySelector(".alert .act")!);
    expect([screen.queryByRole("dialog"), wall.container.querySelector(".alert button")]).toEqual([
      null,
      null,
    ]);
  });

  it("C2 what was tapped here and refused later is told, with its tray and time, until someone has read it", () => {
    const refused = (n: number, trayId: string): OutboxItem => ({
      n,
      is: "refused",
      command: { type: "flooded", trayId: asId(trayId), commandId: asId(`c${n}`), atMs: NOW - n * MIN },
      refusal: { ok: false, reason: "wrong-stage", fact: { code: "said", text: `Sentence ${n}.` } },
    });
    const { texts, setOutbox } = show(normalKitchen(), { isBench: true });
    expect(texts(".refusal")).toEqual([]);
    setOutbox([refused(1, "t7"), refused(2, "t22"), refused(3, "gone")]);
    expect(texts(".refusal p")).toEqual([
      "Tray 7 · the tap of 14:11 was not accepted Sentence 1.",
      "Tray 22 · the tap of 14:10 was not accepted Sentence 2.",
    ]);
    expect(texts("p.refusal")).toEqual(["and 1 more"]);
    fireEvent.click(screen.getAllByRole("button", { name: "Understood" })[0]!);
    expect(texts(".refusal p")[1]).toBe("A tap · the tap of 14:09 was not accepted Sentence 3.");
    expect(texts("p.refusal")).toEqual([]);
  });

  it("P13 a bench says that the kitchen was put back, until someone has read it", () => {
    const { texts, setWasReplaced } = show(normalKitchen(), { isBench: true });
    setWasReplaced(true);
    expect(texts(".refusal strong")).toEqual(["The kitchen was put back to an earlier copy"]);
    fireEvent.click(screen.getByRole("button", { name: "Understood" }));
    expect(texts(".refusal")).toEqual([]);
  });

  it("an undo that is refused says why", async () => {
    const refusal = {
      ok: false as const,
      reason: "wrong-stage" as const,
      fact: { code: "said" as const, text: "Odile has gone on since." },
    };
    const { container, texts, settle } = show(normalKitchen(), {
      isBench: true,
      answer: (input) => (input.type === "take-back" ? { ok: false, refusal } : landed(input)),
    });
    fireEvent.click(container.querySelector(".tile")!);
    await settle();
    fireEvent.click(screen.getByRole("button", { name: "Flood layer 2" }));
    fireEvent.click(screen.getByRole("button", { name: "Undo" }));
    expect(texts(".toast")).toEqual(["Odile has gone on since.Understood"]);
    fireEvent.click(screen.getByRole("button", { name: "Understood" }));
    expect(texts(".toast")).toEqual([]);
  });

  it("a tray to check by touch asks what the finger found", async () => {
    const { container, inputs, settle } = show(normalKitchen(), { isBench: true });
    fireEvent.click(container.querySelector('.tile[data-is="check-by-touch"]')!);
    await settle();
    fireEvent.click(screen.getByRole("button", { name: "Skinned" }));
    expect(inputs).toEqual([{ type: "touch-test", trayId: "t16", finding: "skinned" }]);
  });

  it("H29 a heat-set that spoiled cookies asks how many", async () => {
    const { container, inputs, settle } = show(normalKitchen(), { isBench: true });
    fireEvent.click(container.querySelector('[data-lane="heat-set"] .pill:not([data-overdue])')!);
    await settle();
    fireEvent.click(screen.getByRole("button", { name: "Stop: swollen or cracked" }));
    await settle();
    fireEvent.click(screen.getByRole("button", { name: "3" }));
    expect(inputs).toEqual([
      { type: "end-heat-set", trayId: "t26", result: "swollen or cracked", spoiled: 3 },
    ]);
    expect(container.querySelector(".toast")?.textContent).toContain("Tray 26: stop: swollen or cracked, 3");
  });

  it("K9 starting too soon names the risk, and a second tap takes it", async () => {
    const refusal = {
      ok: false as const,
      reason: "risk" as const,
      fact: { code: "said" as const, text: "Storm may bleed into milk." },
    };
    const { container, inputs, settle } = show(normalKitchen(), {
      isBench: true,
      answer: (input) => ("acceptRisk" in input ? landed(input) : { ok: false, refusal }),
    });
    fireEvent.click(container.querySelector('[data-lane="crusting"] .pill')!);
    await settle();
    fireEvent.click(screen.getByRole("button", { name: "Flood layer 2" }));
    expect(screen.getByText("Storm may bleed into milk.")).toBeTruthy();
    // A finger that tapped twice has not read it.
    fireEvent.click(screen.getByRole("button", { name: /anyway/ }));
    expect(inputs).toHaveLength(1);
    await settle();
    fireEvent.click(screen.getByRole("button", { name: /anyway/ }));
    expect(inputs.at(-1)).toEqual({ type: "start-flooding", trayId: "t5", acceptRisk: true });
  });

  it("K9 a risk that is refused late, after the sheet has closed, can be taken on the bench too", async () => {
    const { inputs, setOutbox, settle, texts } = show(normalKitchen(), { isBench: true });
    const refusal = {
      ok: false as const,
      reason: "risk" as const,
      fact: { code: "said" as const, text: "Storm may bleed into milk." },
    };
    const command = { commandId: asId<CommandId>("c1"), atMs: NOW - MIN, trayId: asId<TrayId>("t5") };
    setOutbox([{ n: 0, is: "refused", command: { ...command, type: "start-flooding" }, refusal }]);
    const button = screen.getByRole("button", { name: "Do it anyway" });
    fireEvent.click(button);
    expect(inputs).toEqual([]);
    await settle();
    fireEvent.click(button);
    expect(inputs).toEqual([{ type: "start-flooding", trayId: "t5", acceptRisk: true }]);
    expect(texts(".refusal")).toEqual([]);
  });

  it("C9 a finger that tapped twice opens a heat-set's sheet and does not end it", async () => {
    const { container, inputs, settle } = show(normalKitchen(), { isBench: true });
    fireEvent.click(container.querySelector('[data-lane="heat-set"] .pill:not([data-overdue])')!);
    const end = screen.getByRole("button", { name: "Stop: not set yet" });
    fireEvent.click(end);
    expect(inputs).toEqual([]);
    await settle();
    fireEvent.click(end);
    expect(inputs).toEqual([{ type: "end-heat-set", trayId: "t26", result: "not yet" }]);
  });

  it("H41 between two cookies a heat-set's sheet puts the heat on, and finds none not set", async () => {
    const made = normalKitchen();
    const hot = heating(1, 50);
    if (hot.stage !== "heat-set") throw new Error("no heat");
    const status = { ...hot, heat: { ...hot.heat, pausedSinceMs: NOW - 5000 } };
    const t26 = { ...made.kitchen.trays["t26"]!, status };
    const paused = { ...made, kitchen: { ...made.kitchen, trays: { ...made.kitchen.trays, t26 } } };
    const { container, inputs, settle, texts } = show(paused, { isBench: true });
    fireEvent.click(container.querySelector('[data-lane="heat-set"] .pill:not([data-overdue])')!);
    await settle();
    expect(texts(".sheet .choices button")).toEqual([
      "Heat on",
      "Set to the touch: stop",
      "Stop: swollen or cracked",
    ]);
    fireEvent.click(screen.getByRole("button", { name: "Heat on" }));
    expect(inputs).toEqual([{ type: "heat-on", trayId: "t26" }]);
  });

  it("C9 a sheet that others' taps change under the finger takes none for a moment, and counts no cookies of a heat that is over", async () => {
    const made = normalKitchen();
    const { container, inputs, settle, setState, setNowMs } = show(made, { isBench: true });
    const standAs = (status: TrayStatus): void => {
      const t26 = { ...made.kitchen.trays["t26"]!, status };
      setState({ ...made, kitchen: { ...made.kitchen, trays: { ...made.kitchen.trays, t26 } } });
    };
    const hot = heating(1, 50);
    if (hot.stage !== "heat-set") throw new Error("no heat");
    fireEvent.click(container.querySelector('[data-lane="heat-set"] .pill:not([data-overdue])')!);
    await settle();
    const stop = screen.getByRole("button", { name: "Stop: not set yet" });
    // A second goes by, and nothing else: the button under the finger is the same, and takes the tap.
    setNowMs(NOW + 1000);
    expect(screen.getByRole("button", { name: "Stop: not set yet" })).toBe(stop);
    expect(stop.getAttribute("aria-disabled")).toBe("false");

    standAs({ ...hot, heat: { ...hot.heat, laps: [{ fromMs: NOW - 50_000, toMs: NOW }] } });
    fireEvent.click(screen.getByRole("button", { name: "Stop: not set yet" }));
    expect(inputs).toEqual([]);
    await settle();
    fireEvent.click(screen.getByRole("button", { name: "Stop: swollen or cracked" }));
    await settle();
    standAs({ stage: "crusting", nextLayer: 2 });
    expect(screen.queryByRole("button", { name: "3" })).toBeNull();
    const [next] = [...container.querySelectorAll<HTMLElement>(".sheet .choices button")];
    fireEvent.click(next!);
    expect(inputs).toEqual([]);
    await settle();
    fireEvent.click(next!);
    expect(inputs).toEqual([{ type: "start-flooding", trayId: "t26" }]);
  });

  it("a tile of several trays asks which", async () => {
    const { container, inputs, settle } = show(fullKitchen(), { isBench: true });
    fireEvent.click(container.querySelector(".tile")!);
    await settle();
    fireEvent.click(screen.getByRole("button", { name: "68" }));
    await settle();
    fireEvent.click(screen.getByRole("button", { name: "Flood layer 2" }));
    expect(inputs).toEqual([{ type: "start-flooding", trayId: "t68" }]);
  });
});

describe("joining", () => {
  const joined = { token: "tok", deviceId: "d1", personId: "p1", role: "wall" };
  const answering = (status: number, body: unknown) =>
    vi.fn<typeof fetch>(async () => new Response(JSON.stringify(body), { status }));

  it("with a code in the address it joins by itself, as a wall", async () => {
    const send = answering(200, joined);
    const onJoined = vi.fn();
    render(() => (
      <InEnglish place={() => EMPTY_KITCHEN.settings}>
        <Join code={joinCodeIn("#join=PLUM-7")} wasRefused={false} send={send} onJoined={onJoined} />
      </InEnglish>
    ));
    await vi.waitFor(() => expect(onJoined).toHaveBeenCalled());
    expect(JSON.parse(send.mock.calls[0]?.[1]?.body as string)).toEqual({
      code: "PLUM-7",
      name: "Wall",
      as: "wall",
    });
    expect(onJoined.mock.calls[0]?.[0]).toMatchObject({ token: "tok", as: "wall", name: "Wall" });
  });

  it("a wrong code is said in words, and nothing is joined", async () => {
    const onJoined = vi.fn();
    render(() => (
      <InEnglish place={() => EMPTY_KITCHEN.settings}>
        <Join
          code="NO"
          wasRefused={false}
          send={answering(403, { reason: "wrong-code" })}
          onJoined={onJoined}
        />
      </InEnglish>
    ));
    expect(await screen.findByRole("alert")).toHaveProperty(
      "textContent",
      expect.stringContaining("not the kitchen's join code"),
    );
    expect(onJoined).not.toHaveBeenCalled();
  });
});

describe("sound", () => {
  const BENCH = { deviceId: "d1", personId: asId<PersonId>("bench-2") };
  function listening(first: readonly ActiveAlert[] = [], speed = 1) {
    const played: string[] = [];
    const [alerts, setAlerts] = createSignal(first);
    const [nowMs, setNowMs] = createSignal(NOW);
    const kitchen = () => ({
      ...bareKitchen(),
      alerts: Object.fromEntries(alerts().map((alert) => [alert.key, alert])),
    });
    render(() => {
      const me = { ...BENCH, name: "Bench 2", role: "decorator" as const };
      soundAlerts({ play: (kind) => played.push(kind) }, { me, kitchen, nowMs, speed: () => speed });
      return <i />;
    });
    return {
      played,
      setAlerts,
      pass: (realMs: number) => setNowMs((ms) => ms + realMs * speed),
    };
  }
  const stop = urgent("heat-running-long", 10);

  it("a matter sounds once when raised, the worst of what came together", () => {
    const { played, setAlerts } = listening();
    const late = urgent("waiting-long", 5, { class: "prompt" });
    setAlerts([stop, late]);
    setAlerts([stop, late]);
    expect(played).toEqual(["urgent"]);
  });

  it("what is told to whoever taps here sounds, and not what is told to another", () => {
    const { played, setAlerts } = listening();
    const toldTo = (personId: PersonId): ActiveAlert =>
      urgent("heat-near-stop", 5, {
        class: "prompt",
        recipients: { wall: false, everyone: false, leads: false, people: [personId] },
      });
    setAlerts([toldTo(asId("wren"))]);
    expect(played).toEqual([]);
    setAlerts([{ ...toldTo(BENCH.personId), key: "own" }]);
    expect(played).toEqual(["prompt"]);
  });

  it.each([1, 60])("an urgent one sounds again every 20 s until someone has answered it, at ×%d", (speed) => {
    const { played, setAlerts, pass } = listening([], speed);
    setAlerts([{ ...stop, raisedAtMs: NOW }]);
    for (let s = 1; s <= 41; s += 1) pass(1000);
    expect(played).toEqual(["urgent", "urgent", "urgent"]);
    setAlerts([{ ...stop, raisedAtMs: NOW, acknowledged: { by: "ida" as never, atMs: NOW } }]);
    for (let s = 1; s <= 41; s += 1) pass(1000);
    expect(played).toHaveLength(3);
  });

  it("what is not told to the wall is not heard there", () => {
    const { played, setAlerts } = listening();
    setAlerts([
      urgent("will-sink", 5, {
        class: "prompt",
        recipients: { wall: false, everyone: false, leads: false, people: [] },
      }),
    ]);
    expect(played).toEqual([]);
  });
});

describe("the line under the tiles", () => {
  it("names as many as there is room for", () => {
    const ways = moreWays(ENGLISH, { ready: [18, 23, 40], toStart: [50, 51] });
    expect(ways[0]).toBe("and 3 more: 18, 23, 40 · 2 to start: 50–51");
    expect(ways).toContain("and 3 more: 18, 23 +1 · 2 to start: 50–51");
    expect(ways.at(-1)).toBe("and 3 more · 2 to start");
    expect(ways.map(({ length }) => length)).toEqual(
      ways.map(({ length }) => length).toSorted((a, b) => b - a),
    );
    expect(moreWays(ENGLISH, { ready: [18, 23, 40], toStart: [] })[0]).toBe("and 3 more: 18, 23, 40");
    expect(moreWays(ENGLISH, { ready: [], toStart: [] })[0]).toBe("");
  });
});
