import { mkdirSync, readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { createHash } from "node:crypto";
import { asId } from "#shared/ids.ts";
import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import { openKitchenDb } from "#server/log/kitchen-db.ts";
import { sqliteDevices } from "#server/log/sqlite-devices.ts";
import { sqliteEventLog } from "#server/log/sqlite-event-log.ts";
import { writeHighWater } from "#server/log/high-water.ts";
import { busyWeeks } from "./server-big-log.ts";

export interface WrittenKitchen {
  folder: string;
  file: string;
  epoch: string;
  seq: number;
  events: readonly KitchenEvent[];
}

/** A data folder as a server leaves it: so many events, an answer for each, a device, and a mark of how far the log came. */
export async function writeKitchen(
  folder: string,
  events: number,
  epoch = "epoch-of-tests",
): Promise<WrittenKitchen> {
  mkdirSync(folder, { recursive: true });
  const file = join(folder, "kitchen.db");
  const db = openKitchenDb(file);
  const log = sqliteEventLog(db, "test", () => epoch);
  const all = [...busyWeeks(events)];
  for (let from = 0; from < all.length; from += 500) {
    const batch = all.slice(from, from + 500).map((event, k) => ({
      commandId: `command-${from + k + 1}`,
      answer: { ok: true, seq: from + k + 1 } as const,
      events: [event],
    }));
    await log.append(batch, from);
  }
  const device = {
    deviceId: "phone-1",
    kind: "phone",
    personId: asId<never>("wren"),
    mayLead: true,
  } as const;
  await sqliteDevices(db).add({ ...device, seenMs: 0 }, "the token of phone 1");
  db.close();
  writeHighWater(folder, { epoch, seq: all.length });
  return { folder, file, epoch, seq: all.length, events: all };
}

/** Every file below a folder with what is in it, to hold against later; SQLite's lock aside. */
export function filesIn(folder: string): Record<string, string> {
  const names = readdirSync(folder, { recursive: true, encoding: "utf8" }).toSorted();
  return Object.fromEntries(
    names
      .filter((name) => !name.startsWith("lock.db") && statSync(join(folder, name)).isFile())
      .map((name) => [
        name,
        createHash("sha256")
          .update(readFileSync(join(folder, name)))
          .digest("hex"),
      ]),
  );
}
