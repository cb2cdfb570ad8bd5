import { describe, expect, it } from "vitest";
import { PHONE } from "../../support/browser.ts";
import { type KitchenScreen, useEngineKitchen } from "../../support/engines/engine-kitchen.ts";
import type { Engine, EngineName } from "../../support/engines/engine.ts";
import { findEngines } from "../../support/engines/find-engines.ts";
import { button, field, link, part } from "../../support/engines/screen.ts";
import type { LogLine } from "../../support/kitchen-server.ts";
import { JOIN_CODE } from "../../support/server-app.ts";

const live = { css: ".status > span", words: "live", isExact: true };
const clockButton = button("start the drying clock");
const lane = (name: string): string => `.lane[data-lane="${name}"] .pill`;

/** What every engine must do: one file calls it for each, so that they run side by side. */
export function engineStories(name: EngineName): void {
  const { found, missing, mustBeThere } = findEngines(process.env["TRAYTIDE_ENGINES"]);

  it(`${name} is installed, or nobody asked for it`, () => {
    expect(mustBeThere ? missing : []).not.toContain(name);
  });

  for (const one of found) if (one.name === name) describe(`in ${name}`, () => stories(one.open));
}

function stories(open: () => Promise<Engine>): void {
  const kitchen = useEngineKitchen(open);

  const logged = async (token: string, ...types: string[]): Promise<LogLine[]> =>
    (await kitchen().log(token)).filter(({ type }) => types.includes(type));

  async function expectNoComplaints(...screens: KitchenScreen[]): Promise<void> {
    for (const screen of screens) expect(await screen.complaints()).toEqual([]);
  }

  it("K4 C48 a newcomer joins by code and name, leads, and has trays on the wall from nothing", async () => {
    const wall = await kitchen().wall();
    await wall.find(part("main, .wall", "Set up the kitchen on a phone"));
    const phone = await kitchen().open("/", PHONE);
    console.log(phone.page.version);
    await phone.tap(link("Set up the kitchen"));
    await phone.type("Your name", "Wren");
    await phone.type("Join code", JOIN_CODE);
    await phone.tap(button("Join"));
    await phone.type("The kitchen's name", "Tidepool Bakes");
    await phone.tap(button("Save and go on"));
    await phone.tap(button("Start with a usual room"));
    await phone.tap(button("Done: add the first order"));
    await phone.type("Name", "Harbour fair");
    await phone.type("Cookies", "30");
    await phone.tap(button("Save", true));
    await phone.tap(button("Add trays"));
    await phone.find(field("Design"));
    await phone.tap(button("Add 3 trays"));
    await wall.find(part(".tile", "1–3"));
    await wall.find(part(".order", "Harbour fair"));
    await phone.tap(link("Trays"));
    await phone.tap(link("Pipe layer 1"));
    await phone.find(part("h1", "Tray"));
    await expectNoComplaints(wall, phone);
  });

  it("K6 C1 one tap on the phone starts the drying clock, and the wall shows it", async () => {
    const lead = await kitchen().setUp(3);
    const wall = await kitchen().wall();
    const phone = await kitchen().phone("Wren");
    await phone.find(part(".tray-card"));
    await phone.goTo(`${phone.origin}/phone/#/t/1`);
    const fromMs = Date.now();
    await phone.tap(clockButton);
    await phone.find(part(".toast", "Tray 1 clock started"));
    await wall.find(part(lane("full-dry"), "1"));
    const [flooded, ...more] = await logged(lead, "flooded");
    expect(more).toEqual([]);
    expect(flooded!.atMs).toBeGreaterThanOrEqual(fromMs - 1000);
    expect(flooded!.atMs).toBeLessThanOrEqual(Date.now());
    await expectNoComplaints(wall, phone);
  });

  it("C2 a tap made out of reach waits, survives a reload, and lands once at its own time", async () => {
    const lead = await kitchen().setUp(2);
    const wall = await kitchen().wall();
    const phone = await kitchen().phone("Wren");
    await phone.find(part(".tray-card"));
    await phone.goTo(`${phone.origin}/phone/#/t/1`);
    await phone.find(clockButton);

    phone.air.cut();
    const fromMs = Date.now();
    await phone.tap(clockButton);
    const toMs = Date.now();
    await phone.find(part(".lost-bar", "Waiting: 1 tap to send"));
    expect(await logged(lead, "flooded")).toEqual([]);

    // Back in reach, but the page was thrown away meanwhile: what is loaded is the page alone.
    phone.air.pagesOnly();
    await phone.reload();
    await phone.find(part(".lost-bar", "Waiting: 1 tap to send"));
    await phone.find(button("Pack 3"));
    expect(await logged(lead, "flooded")).toEqual([]);

    phone.air.mend();
    await phone.find(live);
    await wall.find(part(lane("full-dry"), "1"));
    const landed = await logged(lead, "flooded");
    expect(landed.map(({ trayId }) => trayId)).toEqual(["t1"]);
    expect(landed[0]!.atMs).toBeGreaterThanOrEqual(fromMs - 1000);
    expect(landed[0]!.atMs).toBeLessThanOrEqual(toMs + 1000);
    await expectNoComplaints(wall, phone);
  });

  it("C2 with the server gone the page opens all the same, with its tap, which lands once when it is back", async () => {
    const lead = await kitchen().setUp(2);
    const phone = await kitchen().phone("Wren");
    await phone.find(part(".tray-card"));
    await phone.goTo(`${phone.origin}/phone/#/t/1`);
    await phone.find(clockButton);
    await phone.page.evaluate("navigator.serviceWorker.ready.then(() => true)");

    await kitchen().kill();
    await phone.tap(clockButton);
    await phone.find(part(".lost-bar", "Waiting: 1 tap to send"));
    await phone.reload();
    await phone.find(part(".lost-bar", "Waiting: 1 tap to send"));

    await kitchen().restart();
    await phone.find(live);
    expect((await logged(lead, "flooded")).map(({ trayId }) => trayId)).toEqual(["t1"]);
  });

  it("H16 H30 H42 C51 heat: cautions and stop-by, a clock that counts up, an end, the tool asked for, what the engine lacks", async () => {
    const lead = await kitchen().setUp(1);
    const wall = await kitchen().wall();
    const phone = await kitchen().phone("Wren");
    await phone.find(part(".tray-card"));
    await phone.goTo(`${phone.origin}/phone/#/t/1`);
    await phone.tap(clockButton);
    await phone.find(part(".toast", "Tray 1 clock started"));
    await phone.tap(button("Heat-set"));
    await phone.tap(button("Hot air 1"));
    await phone.find(part(".cautions .deference"));
    expect(await phone.find(part(".heat-limits"))).toMatch(/stop by \d+:\d\d/);
    await phone.tap(button("Read: start the heat"));
    await phone.find(part("main", "Cookie 1 of 3"));
    await wall.find(part(lane("heat-set"), "1"));
    const clock = part(".ring-time");
    const startS = seconds(await phone.find(clock));
    await expect.poll(async () => seconds(await phone.find(clock))).toBeGreaterThanOrEqual(startS + 3);
    expect(await phone.find(part("main"))).toMatch(/stop by \d+:\d\d/i);

    // A page that was thrown away counts on; the screen is kept awake by the next tap at the latest, where WebKit wants one.
    await phone.reload();
    await expect.poll(async () => seconds(await phone.find(clock))).toBeGreaterThan(startS + 3);
    await phone.tap(clock);
    expect(await phone.page.evaluate(`"wakeLock" in navigator`)).toBe(true);
    await expect.poll(() => phone.find(part(".heat-panel"))).not.toContain("Once dark");

    await phone.tap(button("Set: next cookie"));
    await phone.tap(button("Set to the touch: stop"));
    await phone.tap(button("Off and on its stand"));
    await phone.find(part("h1", "Tray 1"));
    await expect
      .poll(async () => (await logged(lead, "heat-set-ended", "tool-switched-off")).map(({ type }) => type))
      .toEqual(["heat-set-ended", "tool-switched-off"]);

    // What this engine lacks is said in Room, and nothing else.
    await phone.goTo(`${phone.origin}/phone/#/room`);
    const room = await phone.find(part("main", "Alerts on this phone"));
    const has = (what: string): Promise<unknown> => phone.page.evaluate(`"${what}" in navigator`);
    expect(room.includes("This browser cannot vibrate")).toBe(!(await has("vibrate")));
    expect(room.includes("cannot keep the screen awake")).toBe(!(await has("wakeLock")));
    await expectNoComplaints(wall, phone);
  });
}

/** "1:05" in seconds. */
function seconds(clock: string): number {
  const [minutes = 0, rest = 0] = clock.split(":").map(Number);
  return minutes * 60 + rest;
}
