import { compareNames, sortedByName } from "#shared/collections.ts";
import type { Board } from "#shared/client/screen/board.ts";
import type { CommandInput } from "#shared/kitchen/model/command.ts";
import { roomLeft, standsAt } from "#shared/kitchen/model/lookups.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import type { ProblemKind } from "#shared/kitchen/model/vocabulary.ts";
import { nextAct, readiness } from "#shared/kitchen/tray/route.ts";
import { unreachable } from "#shared/outcome.ts";
import type { Words } from "#shared/words/words.ts";

/** One possible answer: its words, and what it asks for. */
export interface Answer {
  words: string;
  input: CommandInput;
  /** Of how many of so many cookies: asked for next. */
  ofCookies?: number;
  /** What it starts is shown with its cautions before it is sent. */
  isHeat?: true;
}

/** Something about a tray that has several possible answers. */
export interface Topic {
  words: string;
  answers: readonly Answer[];
}

/** The one next act of a tray; where a touch or a heat-set ends it, its possible answers. */
export function answersFor(words: Words, board: Board, tray: Tray): Answer[] {
  const { id: trayId, count: ofCookies } = tray;
  if (readiness(board.kitchen(), board.forecasts(), tray, board.nowMs()).is === "check by touch")
    return touches(words, tray);
  const next = nextAct(board.kitchen(), tray);
  const ask = (input: CommandInput, said = words.trays.act(next)): Answer => ({ words: said, input });
  const { notSet, swollen } = words.wall.sheet;
  switch (next.kind) {
    case "flood":
      return [ask({ type: "start-flooding", trayId })];
    case "flooding":
      return [ask({ type: "flooded", trayId })];
    case "heat":
      return [
        // Between two cookies the heat is on none, so that none can be found not set.
        ...(next.heat.pausedSinceMs === undefined
          ? []
          : [ask({ type: "heat-on", trayId }, words.heat.heatOn)]),
        ask({ type: "end-heat-set", trayId, result: "set" }),
        ...(next.heat.pausedSinceMs === undefined
          ? [ask({ type: "end-heat-set", trayId, result: "not yet" }, notSet)]
          : []),
        { ...ask({ type: "end-heat-set", trayId, result: "swollen or cracked" }, swollen), ofCookies },
      ];
    case "pack":
      return [ask({ type: "pack", trayId })];
    case "packed":
      return [];
    default:
      return unreachable(next);
  }
}

/** "1", "2" … of an answer that counts cookies. */
export const countsFor = ({ input, ofCookies = 1 }: Answer): Answer[] =>
  Array.from({ length: ofCookies }, (_, k) => ({
    words: String(k + 1),
    input:
      input.type === "end-heat-set"
        ? { ...input, spoiled: k + 1 }
        : input.type === "report-problem"
          ? { ...input, count: k + 1 }
          : input,
  }));

const touches = (words: Words, { id: trayId }: Tray): Answer[] =>
  (["still wet", "skinned", "firm"] as const).map((finding) => ({
    words: words.terms.findings[finding],
    input: { type: "touch-test", trayId, finding },
  }));

/** What else a tray's page offers: a touch, heat, another place, a problem; each with its answers, none without. */
export function topicsOf(words: Words, board: Board, tray: Tray): Topic[] {
  const { id: trayId, count: ofCookies, status, films } = tray;
  if (status.stage === "packed") return [];
  const kitchen = board.kitchen();
  const isUnderHeat = status.stage === "heat-set";
  const canHeat = !isUnderHeat && (films.length > 0 || status.stage === "flooding");
  const isTouchNext = readiness(kitchen, board.forecasts(), tray, board.nowMs()).is === "check by touch";
  const tools = sortedByName(kitchen.tools).filter(({ outOfService }) => outOfService === undefined);
  const places = Object.values(kitchen.places)
    // An oven is reached by a heat-set, so that its clock runs.
    .filter(({ id, kind }) => kind !== "oven" && id !== standsAt(tray).placeId && roomLeft(kitchen, id) > 0)
    .toSorted(compareNames);
  const problems = Object.entries(words.terms.problems) as [ProblemKind, string][];
  const topics: Topic[] = [
    {
      words: words.trays.touchTest,
      answers: films.length > 0 && !isUnderHeat && !isTouchNext ? touches(words, tray) : [],
    },
    {
      words: words.trays.heatSet,
      answers: (canHeat ? tools : []).map(({ id: toolId, name }) => ({
        words: name,
        input: { type: "start-heat-set", trayId, toolId },
        isHeat: true,
      })),
    },
    {
      words: words.trays.move,
      answers: (isUnderHeat ? [] : places).map(({ id: placeId, name }) => ({
        words: name,
        input: { type: "move-tray", trayId, placeId },
      })),
    },
    {
      words: words.trays.problem,
      answers: problems.map(([problem, said]) => ({
        words: said,
        input: { type: "report-problem", trayId, problem, count: 1 },
        ofCookies,
      })),
    },
  ];
  return topics.filter(({ answers }) => answers.length > 0);
}
