import { openDB } from "idb";
import type { DBSchema } from "idb";
import type { Held } from "#shared/client/link.ts";
import type { OutboxItem, OutboxStore } from "#shared/client/outbox.ts";

interface PhoneDb extends DBSchema {
  outbox: { key: string; value: OutboxItem };
  held: { key: "board"; value: Held };
}

/** What outlives a reload: taps not yet sent or refused unread, and the board as last heard. */
export interface PhoneStore extends OutboxStore {
  held(): Promise<Held | undefined>;
  keepHeld(held: Held): Promise<void>;
  /** On leaving the kitchen: nothing of it stays on the phone. */
  clear(): Promise<void>;
}

/** In IndexedDB, which works on plain http as well. Every call rejects where the browser allows no storage. */
export function phoneStore(): PhoneStore {
  const db = openDB<PhoneDb>("traytide", 1, {
    upgrade(fresh) {
      fresh.createObjectStore("outbox");
      fresh.createObjectStore("held");
    },
  });
  // Each call reports for itself; this only keeps the first failure from being an unhandled one.
  db.catch(() => undefined);
  return {
    load: async () => (await db).getAll("outbox"),
    put: async (item) => void (await (await db).put("outbox", item, item.command.commandId)),
    drop: async (commandId) => (await db).delete("outbox", commandId),
    held: async () => (await db).get("held", "board"),
    keepHeld: async (held) => void (await (await db).put("held", held, "board")),
    async clear() {
      await (await db).clear("outbox");
      await (await db).clear("held");
    },
  };
}
