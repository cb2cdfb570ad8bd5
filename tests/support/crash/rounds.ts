import { rmSync } from "node:fs";
import { join } from "node:path";
import { setTimeout as wait } from "node:timers/promises";
import { isDeepStrictEqual } from "node:util";
import { openKitchenDb } from "#server/log/kitchen-db.ts";
import type { Command } from "#shared/kitchen/model/command.ts";
import type { CommandAnswer } from "#shared/protocol/command.ts";
import { randomFrom } from "../random.ts";
import { caller } from "../server-app.ts";
import type { CrashKitchen } from "./crash-kitchen.ts";
import { type Life, type Plan, quietPort, type Start } from "./lives.ts";
import { faultsOf, type StoredLog } from "./log-checks.ts";
import { drawAct } from "./random-acts.ts";
import { holdsBoard, openPhone } from "./sync-phone.ts";
import { type Network, unreliable } from "./unreliable.ts";

/** What a chain of rounds came to. */
export interface ChainCounts {
  rounds: number;
  /** Commands that were acknowledged, events in the log, and commands that were sent again to see whether their answer stands. */
  acknowledged: number;
  events: number;
  resent: number;
  /** Rounds by the crash point they ended at. */
  points: Record<string, number>;
}

/** A round, or its catching up afterwards, that takes longer than this has hung, ms. */
const ROUND_MOST_MS = 20_000;
/** Acts before a server is stopped that is to die as it saves its snapshot. */
const ACTS_BEFORE_STOP = 12;
const RESENT_MOST = 60;

/** What the database in a folder holds that no server has open. */
function storedLog(folder: string): StoredLog {
  const db = openKitchenDb(join(folder, "kitchen.db"));
  try {
    const answers = db
      .prepare<[], { command_id: string; answer: string }>("SELECT command_id, answer FROM commands")
      .all();
    return {
      events: db
        .prepare<[], StoredLog["events"][number]>("SELECT seq, event, hash FROM events ORDER BY seq")
        .all(),
      answers: new Map(answers.map(({ command_id, answer }) => [command_id, answer])),
    };
  } finally {
    db.close();
  }
}

function watchDeath({ died }: Life): () => boolean {
  let isDead = false;
  void died.then(() => (isDead = true));
  return () => isDead;
}

/** Where a server dies once screens act on it; a point that is passed with each tap is drawn more often. */
export const POINTS: readonly Plan["point"][] = [
  "before-append",
  "before-append",
  "after-append",
  "after-append",
  "after-acknowledge",
  "after-acknowledge",
  "in-snapshot",
  "any-moment",
];
/** Simulated servers make no backups. */
export const PROCESS_POINTS: typeof POINTS = [...POINTS, "in-backup"];
/** Servers that die already as they read the log, and are started again. */
const IN_REPLAY = 0.15;

function drawPlan(draw: () => number, points: typeof POINTS): Plan {
  const point = points[Math.floor(draw() * points.length)]!;
  if (point === "in-snapshot" || point === "in-backup") return { point, count: draw() < 0.5 ? 1 : 2 };
  // Now and then so soon that it dies while screens still catch up with its last death.
  const [from, span] = draw() < 0.2 ? [1, 4] : [8, 25];
  return { point, count: from + Math.floor(draw() * span) };
}

/**
 * Rounds on one kitchen, drawn from a seed: a server starts, phones act through a network that loses, repeats and reorders what they say,
 * the server dies at a crash point, and the next one goes on from what the disk holds. Throws at the first thing that is wrong.
 */
export async function playChain(
  seed: number,
  rounds: number,
  kitchen: CrashKitchen,
  start: Start,
  points = POINTS,
): Promise<ChainCounts> {
  const draw = randomFrom(seed * 7919);
  const counts: ChainCounts = { rounds: 0, acknowledged: 0, events: 0, resent: 0, points: {} };
  const acknowledged = new Map<string, CommandAnswer>();
  /** As it was sent: what waits on a phone moves in time with the server's clock. */
  const sent = new Map<string, { phone: string; command: Command }>();
  const faults: string[] = [];
  const network: Network = {
    draw,
    isCalm: false,
    onAnswer: (phone, command, answer) => {
      const before = acknowledged.get(command.commandId);
      if (before !== undefined && !isDeepStrictEqual(before, answer))
        faults.push(
          `${command.commandId} was answered ${JSON.stringify(before)}, then ${JSON.stringify(answer)}`,
        );
      acknowledged.set(command.commandId, answer);
      if (before === undefined) sent.set(command.commandId, { phone, command });
    },
  };
  const port = await quietPort(draw);
  let ids = 0;
  const phones = kitchen.phones.map((who) =>
    openPhone(`http://127.0.0.1:${port}`, who, {
      newId: () => `s${seed}-${(ids += 1)}`,
      through: (open) => unreliable(open, network, who.deviceId),
    }),
  );
  let folder = kitchen.copy();
  const check = (problems: readonly string[]): void => {
    if (problems.length > 0)
      throw new Error(`seed ${seed}, round ${counts.rounds}: ${problems.slice(0, 5).join("\n")}`);
  };

  /** Until every phone has sent what waits and shows what the server holds, or the server is dead; whether it is so. */
  async function settled(life: Life): Promise<boolean> {
    const isDead = watchDeath(life);
    const call = caller(port);
    network.isCalm = true;
    for (const phone of phones) phone.wake();
    const untilMs = performance.now() + ROUND_MOST_MS;
    for (;;) {
      if (isDead()) return false;
      const answer = await call("GET", "/api/board", { token: kitchen.wall.token }).catch(() => undefined);
      const board = answer?.status === 200 ? answer.json() : undefined;
      const behind = phones.filter(
        (phone) => phone.waiting() > 0 || board === undefined || !holdsBoard(phone, board),
      );
      if (behind.length === 0) return true;
      if (performance.now() > untilMs)
        throw new Error(
          `seed ${seed}, round ${counts.rounds}: after ${ROUND_MOST_MS} ms a phone differs from the server: ${JSON.stringify(
            behind.map((phone) => ({
              waiting: phone.waiting(),
              connection: phone.link.connection().is,
              seq: phone.link.confirmed()?.seq,
              server: board?.["seq"],
            })),
          )}`,
        );
      await wait(15);
    }
  }

  /** Acts on all phones until the server dies. */
  async function actUntilDeath(life: Life, plan: Plan): Promise<void> {
    const isDead = watchDeath(life);
    network.isCalm = false;
    const untilMs = performance.now() + ROUND_MOST_MS;
    for (let acts = 0; !isDead(); acts += 1) {
      if (performance.now() > untilMs)
        throw new Error(`seed ${seed}: nothing died of ${plan.point}:${plan.count}`);
      if (plan.point === "in-snapshot" && acts === ACTS_BEFORE_STOP) life.stop();
      // What makes the backup has died of it; the server dies of the same power cut.
      if (plan.point === "in-backup" && acts === ACTS_BEFORE_STOP) void backUp().then(life.kill);
      if (plan.point === "any-moment" && acts === plan.count) life.kill();
      const phone = phones[Math.floor(draw() * phones.length)]!;
      // A person waits for no one, but a phone that cannot send gets no further taps here: the round is about those under way.
      if (phone.link.isOpen() && phone.waiting() < 6) {
        phone.act(drawAct(draw, phone));
      }
      await wait(draw() * 6);
    }
  }

  /** Has a backup made; resolves once nothing makes it any more. */
  async function backUp(): Promise<void> {
    const call = caller(port);
    const { token } = kitchen.phones[0]!;
    let answer = await call("POST", "/api/backup", { token });
    while ((answer.json() as { running?: unknown }).running !== undefined) {
      await wait(20);
      answer = await call("GET", "/api/backup", { token });
    }
    // One before the upgrade from the version that furnished the kitchen may be there.
    const { last } = answer.json() as { last?: { reason: string } };
    if (last?.reason === "by-hand")
      faults.push(`a backup that was cut off counts as one: ${JSON.stringify(last)}`);
  }

  async function answersStand(): Promise<void> {
    const asked = [...acknowledged].filter(() => draw() < RESENT_MOST / acknowledged.size);
    for (const [id, answer] of asked) {
      const { phone, command } = sent.get(id)!;
      const sender = phones.find(({ who }) => who.deviceId === phone)!;
      const again = await sender.link.command(command);
      counts.resent += 1;
      if (!isDeepStrictEqual(again, answer))
        check([`${id}, sent again, is answered ${JSON.stringify(again)}, not ${JSON.stringify(answer)}`]);
    }
  }

  const live = (plan: Plan): Promise<Life> => {
    counts.points[plan.point] = (counts.points[plan.point] ?? 0) + 1;
    return start(folder, port, plan);
  };

  let life: Life | undefined;
  try {
    for (; counts.rounds < rounds; counts.rounds += 1) {
      if (draw() < IN_REPLAY) {
        life = await live({ point: "in-replay", count: draw() < 0.5 ? 1 : 2 });
        folder = await life.died;
      }
      const plan = drawPlan(draw, points);
      life = await live(plan);
      if (await settled(life)) await actUntilDeath(life, plan);
      folder = await life.died;
      check([...faults, ...faultsOf(storedLog(folder), acknowledged)]);
    }
    life = await start(folder, port);
    if (!(await settled(life))) throw new Error(`seed ${seed}: the last server died by itself`);
    await answersStand();
    await settled(life);
    life.kill();
    folder = await life.died;
    const log = storedLog(folder);
    check([...faults, ...faultsOf(log, acknowledged)]);
    counts.acknowledged = acknowledged.size;
    counts.events = log.events.length;
    return counts;
  } finally {
    for (const phone of phones) phone.close();
    life?.kill();
    await life?.died.catch(() => undefined);
    rmSync(folder, { recursive: true, force: true });
  }
}
