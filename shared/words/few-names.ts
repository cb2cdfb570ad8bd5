import type { Formats } from "./formats.ts";

/** Letters that names may take in a line that says what to do as well. */
const NAMES_FIT = 60;

/** "Ida or Bea", "Ida, Bea, Cleo", "Ida, Bea +2": as many names as fit, at least one, and how many more there are. */
export function fewNames(names: readonly string[], format: Formats): string {
  const either = format.or(names);
  if (names.length <= 2 && either.length <= NAMES_FIT) return format.or(names.map((one) => format.name(one)));
  const counts = names.map((_, k) => k + 1);
  const shown = counts.findLast((count) => names.slice(0, count).join(", ").length + 4 <= NAMES_FIT) ?? 1;
  const left = names.length - shown;
  const said = names
    .slice(0, shown)
    .map((one) => format.name(one))
    .join(", ");
  return left === 0 ? said : `${said} +${left}`;
}
