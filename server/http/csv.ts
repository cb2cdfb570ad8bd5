/** A cell that a spreadsheet shows as text whatever a person typed: quoted, and never taken for a formula. */
export function csvCell(value: string | number | undefined): string {
  if (value === undefined) return "";
  if (typeof value === "number") return String(value);
  const text = looksLikeFormula(value) ? `'${value}` : value;
  return /[",\r\n']/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/**
 * Whether a spreadsheet could run it: its first visible character begins a formula, be it written full-width or small. What
 * cannot be seen (spaces, control and zero-width characters) is passed over, as some spreadsheets do.
 */
const looksLikeFormula = (value: string): boolean =>
  /^[=+\-@]/.test(
    value
      .replace(/^[\s\p{C}]+/u, "")
      .slice(0, 1)
      .normalize("NFKC"),
  ) || /^[\t\r]/.test(value);

/** One line of a CSV file (RFC 4180). */
export const csvLine = (cells: readonly (string | number | undefined)[]): string =>
  `${cells.map(csvCell).join(",")}\r\n`;
