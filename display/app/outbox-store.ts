import type { SessionStore } from "#shared/client/screen/shell.tsx";
import type { OutboxItem } from "#shared/client/sync/outbox.ts";

const KEY = "traytide.wall.outbox";

/** Taps on a bench that wait to be sent outlive a reload. */
export function outboxStore(storage: Storage): SessionStore {
  const read = (): OutboxItem[] => JSON.parse(storage.getItem(KEY) ?? "[]") as OutboxItem[];
  const write = (items: readonly OutboxItem[]): void => storage.setItem(KEY, JSON.stringify(items));
  const without = (id: string): OutboxItem[] => read().filter((item) => item.command.commandId !== id);
  return {
    load: async () => read(),
    put: async (item) => write([...without(item.command.commandId), item]),
    drop: async (id) => write(without(id)),
    end: () => storage.removeItem(KEY),
  };
}
