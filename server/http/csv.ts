/** A cell that a spreadsheet shows as text whatever a person typed: quoted, and never taken for a formula. */
export function csvCell(value: string | number | undefined): string {
  if (value === undefined) return "";
  if (typeof value === "number") return String(value);
  const text = /^[\s]*[=+\-@\t\r]/.test(value) ? `'${value}` : value;
  return /[",\r\n']/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** One line of a CSV file (RFC 4180). */
export const csvLine = (cells: readonly (string | number | undefined)[]): string =>
  `${cells.map(csvCell).join(",")}\r\n`;
