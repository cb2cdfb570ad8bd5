import type { Kitchen, LayingSample } from "#shared/kitchen/model/state.ts";
import { lineLengthMm } from "#shared/icing/line-length.ts";
import type { Consistency, Design } from "#shared/kitchen/model/vocabulary.ts";
import { USUAL_PER_TRAY } from "#shared/kitchen/orders/tray-plans.ts";
import { layingOf } from "#shared/kitchen/tray/laying.ts";

/** How long hands take to lay a layer, as the taps tell: minutes a cookie, and how sure. */
export interface Pace {
  /** Of a line as long as `lineMm`, or poured. */
  minACookie: Readonly<Record<Consistency, number>>;
  /** Once round the kitchen's usual cookie. */
  lineMm: number;
  /** From one tray to the next, ln. */
  traySd: number;
  /** Of the minutes themselves, ln: little is known before a few trays were timed. */
  meanSd: number;
  /** Trays timed. */
  samples: number;
}

/** What the kitchen's setting counts for, in trays timed; one consistency's own minutes begin from the kitchen's. Judgement. */
const SETTING_TRAYS = 4;
/** From tray to tray before any was timed, ln; and what that counts for. Judgement, no source. */
const TRAY_SD = 0.25;
const TRAY_SD_TRAYS = 6;
/** Nobody lays this many times faster or slower than the setting says: a forgotten tap. */
const SILLY = 6;
/** The newest are learned from. */
const LEARNED_FROM = 200;
/** A cookie's size where no tray is on the board. */
const USUAL_SIZE_MM = 80;
/** A line takes minutes as it is long, but so many times the usual line's at most, and no less than a part as small. Judgement. */
const LINE_MOST = 4;

/** Minutes that a cookie of this design takes for a layer: of a piped line as it is long. */
export function minACookie(pace: Pace, { sizeMm, layers }: Design, layer: number): number {
  const own = layers[layer]!;
  return pace.minACookie[own.consistency] * lineShare(lineLengthMm(own, sizeMm), pace.lineMm);
}

const lineShare = (lineMm: number | undefined, usualMm: number): number =>
  lineMm === undefined ? 1 : Math.min(LINE_MOST, Math.max(1 / LINE_MOST, lineMm / usualMm));

/** Every layer timed from "start" to "laid", on the board or put away, oldest first. */
export const layingSamples = (kitchen: Kitchen): LayingSample[] =>
  [
    ...(kitchen.laying ?? []),
    ...Object.values(kitchen.trays).flatMap((tray) => layingOf(kitchen.designs[tray.designId], tray)),
  ]
    .toSorted((a, b) => a.atMs - b.atMs)
    .slice(-LEARNED_FROM);

const middleOf = (numbers: readonly number[]): number | undefined =>
  numbers.toSorted((a, b) => a - b)[Math.floor(numbers.length / 2)];

/** The kitchen's setting by cookie: it is told for a tray, which here holds as many as most. */
const settingMinACookie = ({ trays, settings }: Kitchen): number =>
  settings.floodingMin / (middleOf(Object.values(trays).map(({ count }) => count)) ?? USUAL_PER_TRAY);

/** Once round a cookie of the size that most are of, mm. */
function usualLineMm({ trays, designs }: Kitchen): number {
  const sizes = Object.values(trays).flatMap(({ designId }) => designs[designId]?.sizeMm ?? []);
  return lineLengthMm({ consistency: "outline", thicknessMm: 1 }, middleOf(sizes) ?? USUAL_SIZE_MM)!;
}

/**
 * Minutes a cookie by consistency, log-normal: the kitchen's mean shrunk to its setting, each consistency's shrunk to the
 * kitchen's. Depends on the samples alone, not on their order.
 */
export function paceOf(kitchen: Kitchen): Pace {
  const setting = settingMinACookie(kitchen);
  const lineMm = usualLineMm(kitchen);
  const told = layingSamples(kitchen)
    .map(({ consistency, minACookie: min, lineMm: ownMm }) => ({
      consistency,
      ln: Math.log(min / lineShare(ownMm, lineMm) / setting),
    }))
    .filter(({ ln }) => Math.abs(ln) <= Math.log(SILLY));
  const sum = (some: readonly { ln: number }[]): number => some.reduce((all, { ln }) => all + ln, 0);
  const kitchenLn = sum(told) / (SETTING_TRAYS + told.length);
  const lnOf = (consistency: Consistency): number => {
    const own = told.filter((one) => one.consistency === consistency);
    return (SETTING_TRAYS * kitchenLn + sum(own)) / (SETTING_TRAYS + own.length);
  };
  const lns = {
    outline: lnOf("outline"),
    "top-coat": lnOf("top-coat"),
    flood: lnOf("flood"),
    detail: lnOf("detail"),
  };
  const squares = told.reduce((all, { consistency, ln }) => all + (ln - lns[consistency]) ** 2, 0);
  const traySd = Math.sqrt((TRAY_SD_TRAYS * TRAY_SD ** 2 + squares) / (TRAY_SD_TRAYS + told.length));
  const minutes = (ln: number): number => setting * Math.exp(ln);
  return {
    lineMm,
    minACookie: {
      outline: minutes(lns.outline),
      "top-coat": minutes(lns["top-coat"]),
      flood: minutes(lns.flood),
      detail: minutes(lns.detail),
    },
    traySd,
    meanSd: traySd / Math.sqrt(SETTING_TRAYS + told.length),
    samples: told.length,
  };
}
