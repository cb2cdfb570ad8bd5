import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as wait } from "node:timers/promises";
import { isDeepStrictEqual } from "node:util";
import { afterAll, expect, test } from "vitest";
import type { JoinAnswer } from "#shared/protocol/join.ts";
import { openBalancer } from "../support/balancer.ts";
import { quietPort } from "../support/crash/lives.ts";
import { faultsOf, type StoredLog } from "../support/crash/log-checks.ts";
import { drawAct } from "../support/crash/random-acts.ts";
import { HOT_AIR, rack } from "../support/furnishings.ts";
import { ask, startPostgres } from "../support/postgres.ts";
import { fleetServer, type FleetServer } from "../support/proof/fleet.ts";
import { runHeats } from "../support/proof/heats.ts";
import { openScreens, type Screens } from "../support/proof/screens.ts";
import { randomFrom } from "../support/random.ts";
import { caller } from "../support/server-app.ts";
import { setUp } from "../support/server-kitchen.ts";

/** One seed alone: `TRAYTIDE_SEED=7 npx vitest run … tests/proof/three-servers.test.ts`. */
const SEED = Number(process.env["TRAYTIDE_SEED"] ?? 1 + (Date.now() % 100_000));
const SERVERS = 3;
const SCREENS = 60;
/** Of them phones that people tap; the others are walls. */
const PHONES = 12;
const TRAYS = 40;
const TOOLS = 10;
const HEAT_TRAYS = 60;
const COMMANDS_A_S = 30;
const QUIET_S = 8;
const SERVER_KILLS = 10;
/** After so many of these PostgreSQL is killed. */
const DATABASE_KILLS_AFTER = [3, 7];
const BETWEEN_KILLS_MS = 1500;
/** What is asked for: a screen is live again, and an alarm is shown, within this. */
const LIVE_AGAIN_MS = 3000;
/** Taps are kept on the phones meanwhile: how soon one is saved again once PostgreSQL is back has a bound of our own. */
const SAVED_AGAIN_MS = 8000;

/** What has not come by then does not come; how long it took is looked at afterwards. */
const PATIENCE_MS = 60_000;

const draw = randomFrom(SEED * 7919);
const folder = mkdtempSync(join(tmpdir(), "traytide-proof-"));
const ends: (() => Promise<unknown> | void)[] = [];
afterAll(async () => {
  for (const end of ends.toReversed()) await end();
  rmSync(folder, { recursive: true, force: true });
});

let ids = 0;
const newId = (): string => `p${SEED}-${(ids += 1)}`;

/** Puts a kitchen into servers that are empty, and opens the screens on the balancer before them. */
async function furnish(port: number, origin: string): Promise<Screens> {
  const call = caller(port);
  const joined: JoinAnswer[] = [];
  for (let k = 0; k < SCREENS; k += 1) {
    const isPhone = k < PHONES;
    const body = {
      code: "TEST42",
      name: `${isPhone ? "Person" : "Wall"} ${k}`,
      as: isPhone ? "phone" : "wall",
    };
    const answer = await call("POST", "/api/join", { body });
    if (answer.status !== 200) throw new Error(`join: ${answer.status} ${answer.text}`);
    joined.push(answer.json() as unknown as JoinAnswer);
  }
  const { token } = joined[0]!;
  const command = (_token: string, body: object) => call("POST", "/api/commands", { token, body });
  await setUp({ command }, token, TRAYS, Date.now());
  const more: object[] = [
    { type: "put-place", place: rack("rack-b", "Rack B", { capacity: 400 }) },
    { type: "put-tool", tool: HOT_AIR },
    ...Array.from({ length: TOOLS }, (_, k) => ({
      type: "put-tool",
      tool: { ...HOT_AIR, id: `heat-${k + 1}`, name: `Heat ${k + 1}`, capS: 20 },
    })),
    {
      type: "add-trays",
      trays: Array.from({ length: HEAT_TRAYS }, (_, k) => ({
        id: `h${k + 1}`,
        number: 100 + k,
        designId: "moon",
        orderId: "party",
        count: 12,
        placeId: "rack-a",
      })),
    },
  ];
  for (const one of more) {
    const answer = await command(token, { commandId: newId(), ...one });
    if (answer.status !== 200) throw new Error(`furnish: ${answer.status} ${answer.text}`);
  }
  const screens = openScreens(origin, joined, newId);
  await expect
    .poll(() => screens.all.filter(({ link }) => link.connection().is !== "live").length, {
      timeout: PATIENCE_MS,
    })
    .toBe(0);
  return screens;
}

/** Real commands of all kinds from the phones, so many a second; the returned function ends it. */
function tapAll({ all }: Screens): () => void {
  const timer = setInterval(() => {
    const phone = all[1 + Math.floor(draw() * (PHONES - 1))]!;
    // A phone without a connection keeps what is tapped; but people do not tap on and on at one that is stuck.
    if (phone.waiting() < 20) phone.act(drawAct(draw, phone));
  }, 1000 / COMMANDS_A_S);
  return () => clearInterval(timer);
}

async function allSent({ all }: Screens): Promise<void> {
  await expect
    .poll(() => all.reduce((sum, phone) => sum + phone.waiting(), 0), { timeout: PATIENCE_MS, interval: 50 })
    .toBe(0);
}

const percentile = (values: readonly number[], share: number): number =>
  values.toSorted((a, b) => a - b)[Math.min(values.length - 1, Math.floor(values.length * share))] ?? NaN;
const figures = (name: string, values: readonly number[]): string =>
  `${name}: median ${percentile(values, 0.5).toFixed(1)} ms, 99th percentile ${percentile(values, 0.99).toFixed(1)} ms, of ${values.length}`;

async function quietSpell(title: string, screens: Screens): Promise<string[]> {
  const stop = tapAll(screens);
  await wait(1000);
  screens.measureFromNow();
  await wait(QUIET_S * 1000);
  stop();
  await allSent(screens);
  await wait(300);
  const { acknowledged, lastScreen } = screens.latencies();
  return [
    figures(`${title}, acknowledged`, acknowledged),
    figures(`${title}, last of ${SCREENS} screens`, lastScreen),
  ];
}

const say = (line: string): void => console.log(line);
say(`seed ${SEED}`);

test("one embedded server, to compare with", async () => {
  const server = fleetServer(await quietPort(draw), { TRAYTIDE_DATA: join(folder, "embedded") });
  ends.push(server.kill);
  await server.start();
  const balancer = await openBalancer(server.port);
  const screens = await furnish(server.port, `http://127.0.0.1:${balancer.port}`);
  for (const line of await quietSpell("one embedded server", screens)) say(line);
  screens.close();
  balancer.close();
  await server.kill();
  expect(screens.faults).toEqual([]);
}, 300_000);

test("S1 S6 three servers, killed ten times, and their PostgreSQL twice: nothing lost or twice, screens live in 3 s, alarms on time", async () => {
  const postgres = await startPostgres(["max_connections=100"]);
  ends.push(postgres.stop);
  const servers: FleetServer[] = [];
  for (let k = 0; k < SERVERS; k += 1) {
    const server = fleetServer(await quietPort(draw), {
      TRAYTIDE_DATA: join(folder, `server-${k}`),
      TRAYTIDE_DB: postgres.url,
      TRAYTIDE_KITCHEN: "proof",
    });
    servers.push(server);
    ends.push(server.kill);
    await server.start();
  }
  const balancer = await openBalancer(...servers.map(({ port }) => port));
  ends.push(balancer.close);
  const screens = await furnish(servers[0]!.port, `http://127.0.0.1:${balancer.port}`);
  ends.push(screens.close);
  const heats = runHeats(screens.all[0]!, screens, { tools: TOOLS, trays: HEAT_TRAYS });
  ends.push(heats.stop);
  for (const line of await quietSpell("three servers on PostgreSQL", screens)) say(line);

  const stop = tapAll(screens);
  const liveAgain: number[] = [];
  const savedAgain: number[] = [];
  /** Until every screen has heard a server since. What was still in its pipe when the server died has come by then. */
  async function untilHeard(killedMs: number): Promise<void> {
    const heard = (): (number | undefined)[] => screens.heardSince(killedMs + 50);
    await expect
      .poll(() => heard().filter((one) => one === undefined).length, { timeout: PATIENCE_MS, interval: 20 })
      .toBe(0);
    liveAgain.push(Math.max(...heard().map((one) => one ?? Infinity)) - killedMs);
  }
  for (let kill = 1; kill <= SERVER_KILLS; kill += 1) {
    const server = servers[Math.floor(draw() * SERVERS)]!;
    const killedMs = performance.now();
    await server.kill();
    const starting = server.start();
    await untilHeard(killedMs);
    await starting;
    await wait(BETWEEN_KILLS_MS);
    if (!DATABASE_KILLS_AFTER.includes(kill)) continue;
    const awayMs = performance.now();
    await postgres.kill();
    await wait(500);
    await postgres.restart();
    const backMs = performance.now();
    const before = screens.acknowledged.size;
    await untilHeard(awayMs);
    await expect
      .poll(() => screens.acknowledged.size, { timeout: PATIENCE_MS, interval: 20 })
      .toBeGreaterThan(before);
    savedAgain.push(performance.now() - backMs);
    await wait(BETWEEN_KILLS_MS);
  }
  // The alarms of what runs now fall due.
  await wait(8000);
  stop();
  heats.stop();
  await allSent(screens);

  say(`live again after a kill, last of ${SCREENS} screens, ms: ${liveAgain.map(Math.round).join(" ")}`);
  say(`acknowledged again once PostgreSQL was back, ms: ${savedAgain.map(Math.round).join(" ")}`);
  const alarms = heats.lateness();
  say(
    `alarms, ms after stop-by, first/last screen: ${alarms
      .map(({ firstMs, lastMs }) => `${Math.round(firstMs ?? Infinity)}/${Math.round(lastMs ?? Infinity)}`)
      .join(" ")}`,
  );

  // All screens and all servers hold the same.
  const { token } = screens.all[0]!.who;
  const boards = async () =>
    Promise.all(servers.map(async ({ port }) => (await caller(port)("GET", "/api/board", { token })).json()));
  await expect
    .poll(
      async () => {
        const [first, ...others] = await boards();
        const same = (held: { seq?: unknown; hash?: unknown; kitchen?: unknown } | undefined): boolean =>
          held?.seq === first?.["seq"] &&
          held?.hash === first?.["hash"] &&
          isDeepStrictEqual(JSON.parse(JSON.stringify(held?.kitchen ?? null)), first?.["kitchen"]);
        return [...others, ...screens.all.map(({ link }) => link.confirmed())].filter((one) => !same(one))
          .length;
      },
      { timeout: PATIENCE_MS },
    )
    .toBe(0);

  const answers = await ask<{ command_id: string; answer: string }>(
    postgres.url,
    "SELECT command_id, answer FROM traytide.commands WHERE kitchen = 'proof'",
  );
  const events = await ask<{ seq: string; event: string; hash: string }>(
    postgres.url,
    "SELECT seq, event, hash FROM traytide.events WHERE kitchen = 'proof' ORDER BY seq",
  );
  const log: StoredLog = {
    events: events.map((row) => ({ ...row, seq: Number(row.seq) })),
    answers: new Map(answers.map(({ command_id, answer }) => [command_id, answer])),
  };
  say(`${screens.acknowledged.size} commands acknowledged, ${log.events.length} events`);
  expect([...screens.faults, ...faultsOf(log, screens.acknowledged)]).toEqual([]);

  const raised = new Map<string, number>();
  for (const { event } of log.events) {
    const { type, alert } = JSON.parse(event) as { type: string; alert?: { key: string } };
    if (type === "alert-raised" && alert !== undefined)
      raised.set(alert.key, (raised.get(alert.key) ?? 0) + 1);
  }
  expect(alarms.length).toBeGreaterThan(5);
  for (const { startId } of alarms)
    expect([startId, raised.get(`heat-running-long:${startId}:0`)]).toEqual([startId, 1]);
  for (const alarm of alarms)
    expect(alarm.lastMs ?? Infinity, JSON.stringify(alarm)).toBeLessThan(LIVE_AGAIN_MS);
  for (const ms of liveAgain) expect(ms).toBeLessThan(LIVE_AGAIN_MS);
  for (const ms of savedAgain) expect(ms).toBeLessThan(SAVED_AGAIN_MS);
  expect(liveAgain).toHaveLength(SERVER_KILLS + DATABASE_KILLS_AFTER.length);
}, 300_000);
