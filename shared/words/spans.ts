import { MIN_MS } from "#shared/time.ts";
import { fraction } from "./fractions.ts";

/** What a language says around a span of time. Minutes and hours are "min" and "h" in all of them (SI). */
export interface SpanTerms {
  days: string;
  now: string;
  under: (span: string) => string;
  about: (span: string) => string;
}

const HOUR = 60;
const DAY = 24 * HOUR;
const inHalves = (value: number): string => fraction(value, 2);
const twoDigits = (value: number): string => String(value).padStart(2, "0");

/** Spans of time in one language. */
export function makeSpans(terms: SpanTerms) {
  const units = bandUnits(terms.days);

  /** A span that happened or is left, in minutes: "4 min", "1 h 20", "2½ h", "15 h", "2½ days". Below nought counts as nought. */
  function span(minutes: number): string {
    const whole = Math.round(Math.max(0, minutes));
    if (whole < 1) return terms.under("1 min");
    if (whole < HOUR) return `${whole} min`;
    if (whole >= 2 * DAY) return `${inHalves(whole / DAY)} ${terms.days}`;
    if (whole >= 10 * HOUR) return `${Math.round(whole / HOUR)} h`;
    const fives = Math.round(whole / 5) * 5;
    const rest = fives % HOUR;
    if (rest % 30 === 0) return `${inHalves(fives / HOUR)} h`;
    return `${Math.floor(fives / HOUR)} h ${twoDigits(rest)}`;
  }

  /**
   * Earliest to latest, in minutes from now: "4–10 min", "45 min–2½ h", "2½–4½ h", "14–17 h". Rounded outwards, so
   * that the words never promise more than the sums do.
   */
  function band(earliestMin: number, latestMin: number): string {
    const earliest = Math.max(0, earliestMin);
    const latest = Math.max(earliest, latestMin);
    if (latest <= 0) return terms.now;
    const last = units(latest);
    const first = earliest >= last.lengthMin ? last : units(earliest);
    const from = outwards(earliest, first, "down");
    const until = outwards(latest, last, "up");
    const to = `${inHalves(until)} ${last.name}`;
    if (from === 0) return terms.under(to);
    if (first === last && from === until) return terms.about(to);
    return first === last ? `${inHalves(from)}–${to}` : `${inHalves(from)} ${first.name}–${to}`;
  }

  /** The same of a forecast: a span from now. */
  const bandOf = ({ earliestMs, latestMs }: { earliestMs: number; latestMs: number }): string =>
    band(earliestMs / MIN_MS, latestMs / MIN_MS);

  return { span, band, bandOf, stopwatch };
}

interface BandUnit {
  name: string;
  lengthMin: number;
  /** Smallest step said, in this unit. */
  step: number;
}

function bandUnits(days: string): (minutes: number) => BandUnit {
  const inMinutes: BandUnit = { name: "min", lengthMin: 1, step: 1 };
  const inHalfHours: BandUnit = { name: "h", lengthMin: HOUR, step: 0.5 };
  const inHours: BandUnit = { name: "h", lengthMin: HOUR, step: 1 };
  const inHalfDays: BandUnit = { name: days, lengthMin: DAY, step: 0.5 };
  return (minutes) => {
    if (minutes <= 90) return inMinutes;
    if (minutes <= 10 * HOUR) return inHalfHours;
    return minutes <= 2 * DAY ? inHours : inHalfDays;
  };
}

function outwards(minutes: number, unit: BandUnit, way: "up" | "down"): number {
  const steps = minutes / (unit.lengthMin * unit.step);
  const hair = 1e-9 * Math.max(1, steps);
  return (way === "up" ? Math.ceil(steps - hair) : Math.floor(steps + hair)) * unit.step;
}

/** A clock that runs, in seconds: "0:07", "1:24", "1:02:03". Whole seconds passed. */
export function stopwatch(seconds: number): string {
  const whole = Math.floor(Math.max(0, seconds));
  const hours = Math.floor(whole / 3600);
  const minutes = Math.floor(whole / 60) % 60;
  return hours > 0
    ? `${hours}:${twoDigits(minutes)}:${twoDigits(whole % 60)}`
    : `${minutes}:${twoDigits(whole % 60)}`;
}
