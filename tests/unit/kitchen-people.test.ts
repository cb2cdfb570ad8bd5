import { said, worded } from "#tests/support/said.ts";
import { describe, expect, test } from "vitest";
import { parse } from "#shared/fields.ts";
import { Command } from "#shared/kitchen/model/command.ts";
import { handsHere, peopleWithoutActs } from "#shared/kitchen/model/people.ts";
import type { PersonId } from "#shared/ids.ts";
import { aKitchen, id, type Scene } from "../support/scene.ts";

const refusalOf = (scene: Scene, ...personIds: string[]): string | undefined => {
  const decision = scene.ask("remove-people", { personIds });
  return decision.ok ? undefined : said(decision.refusal);
};
const namesHere = (scene: Scene): string[] => handsHere(scene.kitchen).map(({ name }) => name);

/** A lead, Ida, with Wren and Sol. */
function staffed(): Scene {
  const scene = aKitchen();
  scene.role = "kitchen";
  scene.by = "kitchen";
  for (const [personId, name, role] of [
    ["ida", "Ida", "lead"],
    ["wren", "Wren", "decorator"],
    ["sol", "Sol", "decorator"],
  ] as const)
    if (scene.kitchen.people[personId] === undefined)
      scene.act("add-person", { person: { id: personId, name, role } });
  return scene.as("ida", "lead");
}

describe("K40 a removed person is no hands, holds no tray, and may not act; what they did keeps their name", () => {
  test("their name stays, they are not counted, and their tray is everyone's", () => {
    const scene = staffed();
    scene.act("assign-tray", { trayId: "t1", to: "wren" });
    const before = namesHere(scene);
    expect(refusalOf(scene, "wren")).toBeUndefined();
    expect(namesHere(scene)).toEqual(before.filter((name) => name !== "Wren"));
    expect(scene.tray("t1").assignedTo).toBeNull();
    expect(scene.kitchen.people["wren"]).toMatchObject({ name: "Wren", leftAtMs: scene.nowMs });
    expect(scene.ask("assign-tray", { trayId: "t1", to: "wren" })).toMatchObject({ ok: false });
    expect(scene.ask("set-role", { personId: "wren", role: "lead" })).toMatchObject({ ok: false });
    expect(worded(scene.as("wren").ask("flooded", { trayId: "t1" }))).toMatchObject({
      ok: false,
      refusal: { message: "You were removed from this kitchen: join again." },
    });
  });

  test("a tray is not given back to them by an undo", () => {
    const scene = staffed();
    scene.act("assign-tray", { trayId: "t1", to: "wren" });
    const actId = scene.act("remove-people", { personIds: ["wren"] });
    expect(worded(scene.ask("take-back", { trayId: "t1", actId }))).toMatchObject({
      ok: false,
      refusal: { message: expect.stringContaining("Wren has left") as string },
    });
  });

  test("a tool that is on in their hands is handed over first", () => {
    const scene = staffed();
    scene.as("wren").act("tool-on", { toolId: "hot-1" });
    scene.as("ida", "lead");
    expect(refusalOf(scene, "sol", "wren")).toMatch(
      /Hot-air tool 1 is on in the hands of Wren: hand it over/,
    );
    expect(namesHere(scene)).toContain("Sol");
    scene.act("hand-over-tool", { toolId: "hot-1", to: "sol" });
    expect(refusalOf(scene, "wren")).toBeUndefined();
    expect(scene.ask("hand-over-tool", { toolId: "hot-1", to: "wren" })).toMatchObject({ ok: false });
  });

  test("the last lead stays, whoever goes with them; a decorator removes nobody", () => {
    const scene = staffed();
    expect(refusalOf(scene, "wren", "ida")).toMatch(/The last lead cannot be removed/);
    expect(refusalOf(scene, "nobody")).toBe("No one here has the id nobody.");
    expect(refusalOf(scene.as("wren"), "sol")).toMatch(/Only a lead/);
    scene.as("ida", "lead").act("set-role", { personId: "wren", role: "lead" });
    expect(refusalOf(scene, "ida")).toBeUndefined();
  });

  test("200 who only joined are found and removed at once, and make room for others", () => {
    const scene = staffed();
    scene.as("wren").act("flooded", { trayId: "t1" });
    const known = Object.keys(scene.kitchen.people).length;
    scene.by = "kitchen";
    scene.role = "kitchen";
    for (let k = known; k < 200; k += 1)
      scene.act("add-person", { person: { id: `joke-${k}`, name: `Joke ${k}`, role: "decorator" } });
    const late = { id: "late", name: "Late", role: "decorator" };
    expect(scene.ask("add-person", { person: late })).toMatchObject({ ok: false });
    const idle = peopleWithoutActs(scene.kitchen).map((person) => person.id);
    expect(idle).not.toContain(id<PersonId>("wren"));
    expect(idle).not.toContain(id<PersonId>("ida"));
    scene.as("ida", "lead").act("remove-people", { personIds: idle });
    expect(namesHere(scene).filter((name) => name.startsWith("Joke"))).toEqual([]);
    scene.by = "kitchen";
    scene.role = "kitchen";
    scene.act("add-person", { person: late });
  });
});

describe("K41 only a person leads", () => {
  test.each([
    [{ role: "wall" }, "a wall"],
    [{ role: "sensor" }, "a sensor"],
    [{ role: "decorator", isBench: true }, "a bench screen"],
  ])("%o is never made a lead", (what, said) => {
    const scene = staffed();
    scene.by = "kitchen";
    scene.role = "kitchen";
    scene.act("add-person", { person: { id: "screen", name: "Screen", ...what } });
    const decision = scene.as("ida", "lead").ask("set-role", { personId: "screen", role: "lead" });
    expect(worded(decision)).toMatchObject({
      ok: false,
      refusal: { message: `Screen is ${said}: only a person can be a lead or a decorator.` },
    });
  });
});

test("K55 hours are a person's, seven days of them, and a lead's to say", () => {
  const week = Array.from({ length: 7 }, () => ({ fromMin: 480, toMin: 900 }));
  const scene = aKitchen().as("wren");
  const ask = (personId: string) => worded(scene.ask("set-hours", { personId, hours: week }));
  expect(ask("wren")).toMatchObject({ ok: false, refusal: { reason: "not-allowed" } });
  scene.as("kitchen", "lead").role = "kitchen";
  scene.act("add-person", { person: { id: "bench", name: "Bench 1", role: "decorator", isBench: true } });
  scene.as("ida", "lead");
  expect(ask("bench")).toMatchObject({
    refusal: { message: "Bench 1 is a bench screen: only a person has hours." },
  });
  expect(ask("nobody")).toMatchObject({ refusal: { reason: "unknown" } });
  expect(ask("wren").ok).toBe(true);
  const six = parse(Command, { commandId: "c", type: "set-hours", personId: "wren", hours: week.slice(1) });
  expect(six).toMatchObject({ ok: false, refusal: { field: "hours", must: { is: "seven days" } } });
});

describe("K56 a lead gives a tray to anybody; others take one for themselves or give theirs back", () => {
  const assigned = (scene: Scene): string | null | undefined => scene.tray("t1").assignedTo;

  test("a decorator takes one, also over from somebody, and gives it back", () => {
    const scene = staffed();
    scene.act("assign-tray", { trayId: "t1", to: "sol" });
    scene.as("wren").act("assign-tray", { trayId: "t1", to: "wren" });
    expect(assigned(scene)).toBe("wren");
    scene.act("assign-tray", { trayId: "t1", to: null });
    expect(assigned(scene)).toBeNull();
  });

  test("but gives none to somebody else, and frees none that is another's", () => {
    const scene = staffed();
    scene.as("wren");
    for (const to of ["sol", null]) {
      scene.as("ida", "lead").act("assign-tray", { trayId: "t1", to: "ida" });
      expect(worded(scene.as("wren").ask("assign-tray", { trayId: "t1", to }))).toMatchObject({
        ok: false,
        refusal: {
          reason: "not-allowed",
          message:
            "Only a lead gives a tray to somebody else. You can take one yourself, or give yours back.",
        },
      });
      expect(assigned(scene)).toBe("ida");
    }
  });
});

describe("K73 a bench screen acts on trays for a person who is here, and nobody else does for another", () => {
  /** Staffed, with a bench screen that acts from now on. */
  function atTheBench(): Scene {
    const scene = staffed();
    scene.role = "kitchen";
    scene.by = "kitchen";
    scene.act("add-person", { person: { id: "bench", name: "Bench 2", role: "decorator", isBench: true } });
    return scene.as("bench");
  }

  test("the act is the person's, and so is what follows from it", () => {
    const scene = atTheBench();
    scene.act("start-flooding", { trayId: "t1", doneBy: "wren" });
    expect(scene.tray("t1").history.at(-1)?.act).toMatchObject({ type: "flooding-started", by: "wren" });
    expect(scene.tray("t1").status).toMatchObject({ stage: "flooding", by: "wren" });
  });

  test.each([
    ["a person for another", "wren", { doneBy: "sol" }],
    ["a bench for a bench", "bench", { doneBy: "bench" }],
    ["a bench for nobody known", "bench", { doneBy: "constructor" }],
  ])("not %s", (_what, by, more) => {
    const scene = atTheBench().as(by);
    const decision = scene.ask("start-flooding", { trayId: "t1", ...more });
    expect(decision).toMatchObject({ ok: false, refusal: { fact: { code: "not-for-others" } } });
  });

  test("nor on what is no tray, nor for whoever has left", () => {
    const scene = atTheBench();
    expect(scene.ask("tool-on", { toolId: "hot-1", doneBy: "wren" })).toMatchObject({
      ok: false,
      refusal: { fact: { code: "not-for-others" } },
    });
    scene.as("ida", "lead").act("remove-people", { personIds: ["sol"] });
    expect(scene.as("bench").ask("start-flooding", { trayId: "t1", doneBy: "sol" })).toMatchObject({
      ok: false,
    });
  });
});
