import { join } from "node:path";
import { nanoid } from "nanoid";
import type { DeviceKind } from "#shared/kitchen/model/vocabulary.ts";
import { embeddedStore } from "#server/log/embedded-store.ts";
import { openKitchenDb } from "#server/log/kitchen-db.ts";
import { asId, type PersonId } from "#shared/ids.ts";
import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import { bigBoard } from "../../support/big-board.ts";

/** People who tap; each has as many phones as it takes. */
const PEOPLE = ["wren", "sol", "ida"] as const;
const A_BATCH = 500;

/** A data folder with a board of so many trays that stands now, and phones that have joined; their tokens. */
export async function makeBoardFolder(folder: string, trays: number, phones: number): Promise<string[]> {
  const scene = bigBoard(trays);
  const store = embeddedStore(openKitchenDb(join(folder, "kitchen.db")), {
    app: "bench",
    newId: nanoid,
    photosFolder: join(folder, "photos"),
  });
  const events = shifted(scene.events, Date.now() - scene.nowMs);
  for (let seq = 0; seq < events.length; seq += A_BATCH)
    await store.log.append(
      [{ commandId: `board-${seq}`, answer: { ok: true, seq }, events: events.slice(seq, seq + A_BATCH) }],
      seq,
    );
  const tokens: string[] = [];
  for (let k = 0; k < phones; k += 1) {
    const personId = asId<PersonId>(PEOPLE[k % PEOPLE.length] ?? PEOPLE[0]);
    const kind: DeviceKind = "phone";
    const token = `bench-token-${k}`;
    tokens.push(token);
    await store.devices.add(
      { deviceId: `bench-${k}`, kind, personId, mayLead: false, seenMs: Date.now() },
      token,
    );
  }
  await store.close();
  return tokens;
}

/** The same at another time: every moment, a field whose name ends in Ms and which is no span, is moved. */
function shifted(events: readonly KitchenEvent[], byMs: number): KitchenEvent[] {
  const year2020Ms = Date.UTC(2020, 0);
  const text = JSON.stringify(events, (key, value: unknown) =>
    key.endsWith("Ms") && typeof value === "number" && value > year2020Ms ? Math.round(value + byMs) : value,
  );
  return JSON.parse(text) as KitchenEvent[];
}
