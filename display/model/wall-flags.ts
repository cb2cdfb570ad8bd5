import { type Accessor, createMemo } from "solid-js";
import type { Words } from "#shared/words/words.ts";
import { alike } from "#shared/client/screen/alike.ts";
import { type Flag, placeFlags, type PickUp } from "./axis-marks.ts";
import type { LaneSources } from "./wall-lanes.ts";

/** The flags of the axis where they stand now, in whole pixels: a second moves few of them. */
export function createFlags(
  { words, nowMs, layout, measure }: LaneSources,
  pickUps: Accessor<readonly PickUp[]>,
): Accessor<readonly Flag[]> {
  return createMemo(
    () => {
      const { axis, flagRows, second, unit } = layout();
      return placeFlags(pickUps(), nowMs(), {
        axisPx: axis,
        rows: flagRows,
        gapPx: 6 * unit,
        widthPx: (said) => Math.ceil(measure()(said) * second),
        ways: (pickUps) => waysToSay(words(), pickUps),
      });
    },
    undefined,
    alike,
  );
}

/**
 * "Kite morning 09:00 · Ferry crew 11:00", "Kite … 09:00 · Ferry … 11:00", "Kite … 09:00 +1": names with ever fewer of their
 * words, then fewer of them.
 */
export function waysToSay({ wall, format }: Words, pickUps: readonly PickUp[]): string[] {
  const counts = pickUps.map((_, k) => pickUps.length - k);
  const forms = pickUps.map(({ name }) => formsOf(name));
  const most = Math.max(...forms.map(({ length }) => length));
  return counts.flatMap((count) =>
    Array.from({ length: most }, (_, k) => {
      const said = pickUps
        .slice(0, count)
        .map(({ atMs }, index) => wall.flag(forms[index]!.at(k) ?? forms[index]!.at(-1)!, format.time(atMs)));
      const more = pickUps.length - count;
      return `${said.join(" · ")}${more > 0 ? ` +${more}` : ""}`;
    }),
  );
}

/** A name longer than this is shortened at once, so that one order does not take the place of three. */
const NAME_LETTERS = 22;

/** A name, then ever fewer of its words. */
function formsOf(name: string): string[] {
  const parts = name.split(" ");
  const shorter = parts.slice(1).map((_, k) => `${parts.slice(0, -1 - k).join(" ")} …`);
  const fitting = [name, ...shorter].filter(({ length }) => length <= NAME_LETTERS);
  return fitting.length > 0 ? fitting : [`${name.slice(0, NAME_LETTERS - 1)}…`];
}
