import { type DBSchema, openDB } from "idb";
import type { SessionStore } from "#shared/client/screen/shell.tsx";
import type { Held } from "#shared/client/sync/link.ts";
import type { OutboxItem, OutboxStore } from "#shared/client/sync/outbox.ts";

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
      const both = (await db).transaction(["outbox", "held"], "readwrite");
      await Promise.all([both.objectStore("outbox").clear(), both.objectStore("held").clear(), both.done]);
    },
  };
}

/** The store as one session uses it. */
export type PhoneSessionStore = PhoneStore & SessionStore;

export function sessionStore(store: PhoneStore): PhoneSessionStore {
  let isOver = false;
  const unlessOver = async (write: () => Promise<void>): Promise<void> => {
    if (!isOver) await write();
  };
  return {
    ...store,
    put: (item) => unlessOver(() => store.put(item)),
    drop: (commandId) => unlessOver(() => store.drop(commandId)),
    keepHeld: (held) => unlessOver(() => store.keepHeld(held)),
    end() {
      isOver = true;
      // Without storage there is nothing to clear.
      store.clear().catch(() => undefined);
    },
  };
}
