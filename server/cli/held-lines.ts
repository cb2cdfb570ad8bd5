import type { Held } from "#server/backup/examine.ts";
import type { Words } from "#shared/words/words.ts";

/** What a kitchen's database holds, a line each. */
export function heldLines(
  held: Held,
  { server }: Words,
  more: readonly (readonly [string, string])[],
): string[] {
  const { verify } = server;
  const rows = [...verify.held(held), [verify.logHash, held.hash] as const, ...more];
  const width = Math.max(...rows.map(([name]) => name.length));
  return rows.map(([name, value]) => `  ${name.padEnd(width)}  ${value}`);
}
