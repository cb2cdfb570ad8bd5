import { cpSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { MAY_CRASH } from "#server/crash-points.ts";
import { openKitchenDb } from "#server/log/kitchen-db.ts";
import type { JoinAnswer } from "#shared/protocol/join.ts";
import { HOT_AIR, rack } from "../furnishings.ts";
import { startServer } from "../server-app.ts";
import { setUp } from "../server-kitchen.ts";
import { handDriven } from "../server-timers.ts";

const PHONES = ["Ida", "Wren", "Sol"];

/** A data folder with a small kitchen that phones and a wall have joined, and no server. */
export interface CrashKitchen {
  phones: readonly JoinAnswer[];
  wall: JoinAnswer;
  /** Another folder with the same in it. */
  copy: () => string;
  remove: () => void;
}

/** Sets one up, once for all chains of rounds. */
export async function crashKitchen(trays = 12): Promise<CrashKitchen> {
  const folder = mkdtempSync(join(tmpdir(), "traytide-crash-"));
  const db = openKitchenDb(join(folder, "kitchen.db"));
  const server = await startServer({ db, hands: handDriven(Date.now() - 60_000) });
  const phones: JoinAnswer[] = [];
  for (const name of PHONES) phones.push(await server.join(name));
  const wall = await server.join("Wall", "wall");
  const lead = phones[0]!.token;
  await setUp(server, lead, trays, Date.now());
  for (const command of [
    { type: "put-place", place: rack("rack-b", "Rack B", { capacity: 400 }) },
    { type: "put-tool", tool: HOT_AIR },
  ])
    await server.command(lead, { commandId: `more-${command.type}`, ...command });
  await server.close();
  db.close();
  writeFileSync(join(folder, MAY_CRASH), "");
  return {
    phones,
    wall,
    copy: () => {
      const other = mkdtempSync(join(tmpdir(), "traytide-crash-"));
      cpSync(folder, other, { recursive: true });
      return other;
    },
    remove: () => rmSync(folder, { recursive: true }),
  };
}
