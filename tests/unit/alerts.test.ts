import { said } from "#tests/support/alert-words.ts";
import { worded } from "#tests/support/said.ts";
import { describe, expect, it } from "vitest";
import type { ActiveAlert, AlertAbout, AlertFact } from "#shared/kitchen/model/alert.ts";
import { changedTo } from "#shared/kitchen/model/active-alert.ts";
import type { PersonId } from "#shared/ids.ts";
import { offlineAlerts } from "#shared/kitchen/alerts/offline.ts";
import { dueAlerts, reconcileAlerts } from "#shared/kitchen/alerts/due.ts";
import { forPerson, forWall, isShown, sounding } from "#shared/kitchen/alerts/shown.ts";
import { NO_FORECASTS } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { parse } from "#shared/fields.ts";
import { evolve } from "#shared/kitchen/events/evolve.ts";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";
import { KitchenEvent } from "#shared/kitchen/model/event.ts";
import { tend } from "../support/alerting.ts";
import { aKitchen, id, MIN, T0 } from "../support/scene.ts";

type Facts = Partial<AlertAbout> & Partial<Pick<AlertFact, "kind" | "class" | "recipients">>;
const alert = (key: string, more: Facts = {}): AlertFact =>
  ({
    key,
    kind: "tool-left-on",
    class: "urgent",
    toolId: id("hot-1"),
    holderId: id("wren"),
    sinceMs: T0,
    recipients: { wall: false, everyone: false, leads: false, people: [] },
    ...more,
  }) as AlertFact;
const status = (more: Facts & Partial<ActiveAlert> = {}): ActiveAlert =>
  ({
    ...alert("a"),
    raisedAtMs: T0,
    ...more,
  }) as ActiveAlert;
const withStanding = (...keys: string[]) => ({
  ...EMPTY_KITCHEN,
  alerts: Object.fromEntries(keys.map((key) => [key, { ...alert(key), raisedAtMs: T0 }])),
});

describe("tending", () => {
  it("A1 raises what is due and does not stand, clears what stands and is not due", () => {
    expect(reconcileAlerts(withStanding("a", "b"), [alert("b"), alert("c")])).toEqual({
      raise: [alert("c")],
      change: [],
      clear: ["a"],
    });
  });

  it("A1 A29 other facts of an active alert raise nothing: it changes to them", () => {
    const still = alert("a", { sinceMs: T0 + 1 });
    expect(reconcileAlerts(withStanding("a"), [still])).toEqual({ raise: [], change: [still], clear: [] });
    const scene = aKitchen();
    scene.kitchen = withStanding("a");
    scene.nowMs += MIN;
    const was = scene.kitchen.alerts["a"]!;
    const is = changedTo({ ...was, acknowledged: { by: id("wren"), atMs: T0 } }, still);
    expect(is).toMatchObject({ sinceMs: T0 + 1, raisedAtMs: was.raisedAtMs, acknowledged: { by: "wren" } });
  });

  it("A29 one that was seen wants to be seen again once it names another tray, and sounds no second time", () => {
    const seen = { ...status({ trays: [7] }), acknowledged: { by: id<PersonId>("wren"), atMs: T0 } };
    expect(changedTo(seen, alert("a", { trays: [7] })).acknowledged).toBeDefined();
    expect(changedTo(seen, alert("a", { trays: [] })).acknowledged).toBeDefined();
    const other = changedTo(seen, alert("a", { trays: [7, 8] }));
    expect(other.acknowledged).toBeUndefined();
    expect(other.raisedAtMs).toBe(seen.raisedAtMs);
  });

  it("A7 acknowledging silences and does not clear; what is urgent cannot be put off", () => {
    const scene = aKitchen();
    scene.act("tool-on", { toolId: "hot-1" });
    scene.later(3 * MIN);
    const [key = ""] = tend(scene).raised;
    const decision = scene.ask("put-off-alert", { key, minutes: 10 });
    expect(decision.ok).toBe(false);
    scene.act("acknowledge-alert", { key });
    expect(tend(scene)).toEqual({ raised: [], cleared: [] });
    const acknowledged = scene.kitchen.alerts[key]!;
    expect(acknowledged.acknowledged?.by).toBe("wren");
    expect(sounding(acknowledged, scene.nowMs)).toBeUndefined();
    expect(isShown(acknowledged, scene.nowMs)).toBe(true);
  });

  it.each(["heat-near-stop", "heat-unwatched", "set-check-by-touch"] as const)(
    "A7 %s, told of heat that is running, cannot be put off; another prompt can",
    (kind) => {
      const scene = aKitchen();
      const prompts = [
        status({ class: "prompt", kind }),
        status({ class: "prompt", key: "b", kind: "will-sink" }),
      ];
      scene.kitchen = { ...scene.kitchen, alerts: Object.fromEntries(prompts.map((one) => [one.key, one])) };
      expect(worded(scene.ask("put-off-alert", { key: "a", minutes: 10 }))).toMatchObject({
        refusal: {
          reason: "not-allowed",
          message: "Heat that is running does not wait, so this cannot be put off.",
        },
      });
      expect(scene.ask("put-off-alert", { key: "b", minutes: 10 }).ok).toBe(true);
    },
  );

  it("A7 putting off has an end", () => {
    const putOff = status({ class: "prompt", putOffUntilMs: T0 + 10 * MIN });
    expect(isShown(putOff, T0 + 10 * MIN - 1)).toBe(false);
    expect(sounding(putOff, T0 + 10 * MIN - 1)).toBeUndefined();
    expect(isShown(putOff, T0 + 10 * MIN)).toBe(true);
    expect(sounding(putOff, T0 + 10 * MIN)).toBe(T0 + 10 * MIN);
  });
});

describe("who is told", () => {
  it("everyone, those named, leads by role, the wall on its own and with everyone", () => {
    const wren = id<never>("wren");
    const to = (some: Partial<AlertFact["recipients"]>): AlertFact =>
      alert("a", { recipients: { ...alert("a").recipients, ...some } });
    expect(forPerson(to({ everyone: true }), wren, "decorator")).toBe(true);
    expect(forPerson(to({ people: [wren] }), wren, "decorator")).toBe(true);
    expect(forPerson(to({ people: [id("sol")] }), wren, "decorator")).toBe(false);
    expect(forPerson(to({ leads: true }), wren, "decorator")).toBe(false);
    expect(forPerson(to({ leads: true }), wren, "lead")).toBe(true);
    expect(forPerson(to({ wall: true }), wren, "lead")).toBe(false);
    expect(forWall(to({ wall: true }))).toBe(true);
    expect(forWall(to({ everyone: true }))).toBe(true);
    expect(forWall(to({ leads: true, people: [wren] }))).toBe(false);
  });
});

describe("sound", () => {
  it("urgent sounds when raised and every 20 s until acknowledged", () => {
    const moments = [0, 19_999, 20_000, 39_999, 40_000].map((ms) => sounding(status(), T0 + ms));
    expect(moments).toEqual([T0, T0, T0 + 20_000, T0 + 20_000, T0 + 40_000]);
  });

  it("a prompt sounds once", () => {
    expect(sounding(status({ class: "prompt" }), T0 + 5 * MIN)).toBe(T0);
  });

  it("a fast practice clock sounds no oftener than the hand's clock", () => {
    expect(sounding(status(), T0 + 30_000, 60 * 20_000)).toBe(T0);
  });
});

describe("A27 a rule that fails", () => {
  const badTray = { status: { stage: "heat-set", heat: { toolId: "none", laps: [] } } };
  const broken = {
    ...withStanding("tool", "heat"),
    trays: { t1: badTray },
  } as unknown as Kitchen;
  const stands = {
    ...broken,
    alerts: {
      ...broken.alerts,
      heat: status({
        key: "heat",
        kind: "heat-running-long",
        recipients: { ...alert("a").recipients, people: [id("wren")] },
      }),
    },
  };

  it("leaves what stands of its kind, clears what others would, and names its group", () => {
    const failed: string[] = [];
    const due = dueAlerts(stands, NO_FORECASTS, T0, new Set(), (group) => void failed.push(group));
    expect(failed).toContain("heat");
    expect(due.map(({ key }) => key)).toContain("heat");
    expect(reconcileAlerts(stands, due).clear).toEqual(["tool"]);
  });

  it("on a phone that hears nothing it is said, sounds every 20 s, and takes no alarm away", () => {
    const at = (nowMs: number): ActiveAlert[] => offlineAlerts(stands, id("wren"), nowMs);
    expect(at(T0).map(({ kind }) => kind)).toEqual(["tool-left-on", "heat-running-long", "heat-unchecked"]);
    expect(said(stands, at(T0)[2])).toBe(
      "This phone cannot check heat alarms | Watch the tools | No connection: the room is not alerted. Watch every heat yourself | ",
    );
    const moments = [0, 1000, 19_000, 21_000].map((ms) => sounding(at(T0 + ms)[2]!, T0 + ms)! - T0);
    expect(moments).toEqual([0, 0, 0, 20_000]);
  });
});

it("P20 an alert of an old log, kept as sentences, stands in them until it is reconciled into facts", () => {
  const scene = aKitchen();
  scene.act("tool-on", { toolId: "hot-1" });
  scene.later(3 * MIN);
  const key = `tool-left-on:hot-1:${T0}`;
  const old = {
    type: "alert-raised",
    atMs: T0,
    by: "kitchen",
    actId: "old",
    alert: {
      key,
      kind: "tool-left-on",
      class: "urgent",
      what: "Hot-air tool 1 is on with no tray under it",
      todo: "Wren: switch it off",
      told: { wall: true, everyone: false, leads: true, people: ["wren"] },
      toolId: "hot-1",
      sinceMs: T0,
    },
  };
  const read = parse(KitchenEvent, old);
  if (!read.ok) throw new Error("it does not open");
  scene.kitchen = evolve(scene.kitchen, read.value);
  const held = scene.kitchen.alerts[key]!;
  expect(forPerson(held, id("wren"), "decorator")).toBe(true);
  expect(said(scene.kitchen, held)).toMatch(
    /^Hot-air tool 1 is on with no tray under it \| .* \| Wren: switch/,
  );
  expect(tend(scene)).toEqual({ raised: [], cleared: [] });
  expect(said(scene.kitchen, scene.kitchen.alerts[key])).toMatch(
    /^Hot-air tool 1: On with no tray under it \| Switch it off/,
  );
});
