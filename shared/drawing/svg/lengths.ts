import { decimalOf } from "#shared/decimal.ts";

/** Millimetres of each unit that has a size of its own: CSS Values and Units 4, section 6.2. */
const MM: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  q: 0.25,
  in: 25.4,
  pt: 25.4 / 72,
  pc: 25.4 / 6,
};
/** A user unit that nothing scales is a CSS pixel. */
const PX_MM = 25.4 / 96;

const split = (text: string): { value: number | undefined; unit: string } => {
  const trimmed = text.trim().slice(0, 60).toLowerCase();
  const unit = /[a-z%]+$/.exec(trimmed)?.[0] ?? "";
  return { value: decimalOf(trimmed.slice(0, trimmed.length - unit.length)), unit };
};

/** A length in millimetres, where its unit says how large it is ("85mm", "3in"); pixels do not. */
export function absoluteMm(text: string): number | undefined {
  const { value, unit } = split(text);
  return value === undefined || MM[unit] === undefined ? undefined : value * MM[unit];
}

/** A length in user units ("12", "12px", "3mm"); undefined of percentages and what is none. */
export function userUnits(text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  const { value, unit } = split(text);
  if (value === undefined) return undefined;
  if (unit === "" || unit === "px") return value;
  return MM[unit] === undefined ? undefined : (value * MM[unit]) / PX_MM;
}
