import { hash } from "node:crypto";
import type { Command } from "#shared/kitchen/model/command.ts";

/** Names what a command asks for: the same however the sender ordered its fields. */
export const commandSha256 = (command: Command): string => hash("sha256", JSON.stringify(ordered(command)));

function ordered(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(ordered);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .toSorted(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, field]) => [key, ordered(field)]),
  );
}
