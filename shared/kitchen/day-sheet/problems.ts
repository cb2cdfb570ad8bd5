import { byName } from "#shared/collections.ts";
import { median } from "#shared/drying/air-record/readings.ts";
import { batchOf, standsAt } from "#shared/kitchen/model/lookups.ts";
import type { Film, Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import type { ProblemKind } from "#shared/kitchen/model/vocabulary.ts";
import { readingsAt } from "#shared/kitchen/tray/place-readings.ts";
import { settingOf } from "#shared/kitchen/tray/sinking.ts";
import { isPoured } from "#shared/icing/poured.ts";
import { HOUR_MS } from "#shared/time.ts";

/** What a problem likely came from. It is never known: the trays that it could explain are named. */
export type LikelyCause = { trays: readonly number[] } & (
  | { code: "damp-air"; rhPct: number }
  | { code: "laid-early" | "not-set-in-time" | "overheated" }
  /** Found wrong, or the problem is commoner on its trays. */
  | { code: "batch"; batchId: string; isWrong: boolean }
);
type CauseCode = LikelyCause["code"];

/** One kind of problem: how many cookies it took, on which trays, and why, the cause of most trays first. */
export interface ProblemGroup {
  problem: ProblemKind;
  cookies: number;
  trays: readonly number[];
  causes: readonly LikelyCause[];
  /** Trays that no cause explains. */
  unexplained: readonly number[];
}

/** What can cause what. Common practice, no source. */
const CAN_CAUSE: Readonly<Record<ProblemKind, readonly CauseCode[]>> = {
  bled: ["laid-early", "damp-air", "batch"],
  sunk: ["not-set-in-time", "damp-air", "batch"],
  cracked: ["overheated", "batch"],
  swollen: ["overheated"],
  dented: ["damp-air", "batch"],
  smeared: ["laid-early", "damp-air", "batch"],
  burned: ["overheated"],
  broken: [],
};

/** Air this damp, % RH, slows a skin so much that colours run and surfaces stay soft. Common practice, no source. */
const DAMP_PCT = 60;
/** A film is at the air's mercy for about so long. */
const OPEN_MS = 3 * HOUR_MS;

/** A batch is suspected when at least so many of its trays have the problem, and so large a part of them. Judgement, no source. */
const SUSPECT_TRAYS = 2;
const SUSPECT_SHARE = 1 / 3;

/** A tray with one kind of problem, reported since. */
interface Case {
  tray: Tray;
  cookies: number;
  atMs: number;
  films: readonly Film[];
}

/** Problems reported since a moment on the trays of the board, the kind that took most cookies first. */
export function problemsSince(kitchen: Kitchen, sinceMs: number): ProblemGroup[] {
  const reports = Object.values(kitchen.trays).flatMap((tray) =>
    tray.problems.filter(({ atMs }) => atMs >= sinceMs).map((report) => ({ tray, report })),
  );
  return [...byName(reports, ({ report }) => report.problem)]
    .map(([, own]): ProblemGroup => {
      const { problem } = own[0]!.report;
      const cases = [...byName(own, ({ tray }) => tray.id).values()].map((ofTray): Case => {
        const { tray } = ofTray[0]!;
        const atMs = Math.max(...ofTray.map(({ report }) => report.atMs));
        return {
          tray,
          cookies: ofTray.reduce((sum, { report }) => sum + report.count, 0),
          atMs,
          films: tray.films.filter(
            (film) => film.clockStartMs <= atMs && canHave(kitchen, tray, film, problem),
          ),
        };
      });
      const causes = CAN_CAUSE[problem]
        .flatMap((code) => causesBy[code](kitchen, cases))
        .toSorted((a, b) => b.trays.length - a.trays.length);
      const explained = new Set(causes.flatMap(({ trays }) => trays));
      return {
        problem,
        cookies: cases.reduce((sum, { cookies }) => sum + cookies, 0),
        trays: numbersOf(cases),
        causes,
        unexplained: numbersOf(cases).filter((number) => !explained.has(number)),
      };
    })
    .toSorted((a, b) => b.cookies - a.cookies);
}

/** Only what is poured can sink. */
const canHave = (kitchen: Kitchen, { designId }: Tray, { layer }: Film, problem: ProblemKind): boolean => {
  const own = kitchen.designs[designId]?.layers[layer];
  return problem !== "sunk" || own === undefined || isPoured(own.consistency);
};

const numbersOf = (cases: readonly Case[]): number[] =>
  cases.map(({ tray }) => tray.number).toSorted((a, b) => a - b);

/** A cause of those cases that it explains, if any. */
const causeOf = (
  code: Exclude<CauseCode, "damp-air" | "batch">,
  cases: readonly Case[],
  explains: (one: Case) => boolean,
): LikelyCause[] => {
  const trays = numbersOf(cases.filter(explains));
  return trays.length === 0 ? [] : [{ code, trays }];
};

const causesBy: Readonly<Record<CauseCode, (kitchen: Kitchen, cases: readonly Case[]) => LikelyCause[]>> = {
  "damp-air"(kitchen, cases) {
    const damp = cases.flatMap((one) => {
      const rhPct = Math.max(...one.films.map((film) => rhOver(kitchen, one, film)));
      return rhPct >= DAMP_PCT ? [{ one, rhPct }] : [];
    });
    if (damp.length === 0) return [];
    return [
      {
        code: "damp-air",
        trays: numbersOf(damp.map(({ one }) => one)),
        rhPct: Math.max(...damp.map(({ rhPct }) => rhPct)),
      },
    ];
  },
  "laid-early": (_, cases) =>
    causeOf("laid-early", cases, ({ films }) => films.some(({ risk }) => risk !== undefined)),
  "not-set-in-time": (_, cases) =>
    causeOf("not-set-in-time", cases, ({ tray, films, atMs }) =>
      films.some((film) => {
        const setting = settingOf(tray, film, atMs);
        return setting === "late" || setting === "not set";
      }),
    ),
  overheated: (_, cases) =>
    causeOf("overheated", cases, ({ tray, atMs }) =>
      tray.heats.some(
        ({ endedAtMs, result, laps, limits }) =>
          endedAtMs <= atMs &&
          (result === "swollen or cracked" ||
            laps.some(({ fromMs, toMs }) => (toMs - fromMs) / 1000 > limits.stopByS)),
      ),
    ),
  batch(kitchen, cases) {
    const used = cases.flatMap((one) =>
      [...new Set(one.films.flatMap(({ bowl }) => bowl?.id ?? []))].map((batchId) => ({ one, batchId })),
    );
    return [...byName(used, ({ batchId }) => batchId)].flatMap(([batchId, own]): LikelyCause[] => {
      const batch = batchOf(kitchen, batchId);
      if (batch === undefined) return [];
      const isWrong = batch.wrong !== undefined;
      const laidOn = Object.values(kitchen.trays).filter(({ films }) =>
        films.some(({ bowl }) => bowl?.id === batchId),
      ).length;
      const isSuspect = own.length >= Math.max(SUSPECT_TRAYS, SUSPECT_SHARE * laidOn);
      return isWrong || isSuspect
        ? [{ code: "batch", batchId, isWrong, trays: numbersOf(own.map(({ one }) => one)) }]
        : [];
    });
  },
};

/** The air's usual humidity over a film's first hours where it was laid, % RH; below all where nothing was read. */
function rhOver(kitchen: Kitchen, { tray, atMs }: Case, { clockStartMs }: Film): number {
  const stood = tray.placements.findLast(({ fromMs }) => fromMs <= clockStartMs) ?? standsAt(tray);
  const untilMs = Math.min(atMs, clockStartMs + OPEN_MS);
  const read = readingsAt(kitchen, stood.placeId).filter(
    (line) => line.atMs >= clockStartMs - HOUR_MS && line.atMs <= untilMs,
  );
  return median(read.map(({ rhPct }) => rhPct)) ?? -Infinity;
}
