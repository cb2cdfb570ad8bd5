import { openFromMs, nextClosingMs } from "#shared/kitchen/model/opening-hours.ts";
import { usePhone } from "#phone/app/phone.tsx";
import type { Block, DryBar, WorkRow } from "./rows.ts";

/** How the plan's rows and their stretches are said. */
export function createRowWords() {
  const { board, words } = usePhone();
  const text = () => words().desk.plan;
  const doing = ({ doing, icing }: Block): string =>
    doing === "pipe" || doing === "flood" || doing === "top-coat"
      ? text().laying(text().doing[doing], icing?.name)
      : text().doing[doing];
  return {
    doing: (block: Block): string => text().doing[block.doing],
    name(row: WorkRow): string {
      if (row.is === "person") return row.person.name;
      return row.is === "chamber" ? row.name : text().rows[row.is];
    },
    /** When a person comes or goes who has hours of their own; how many tools there are. */
    note(row: WorkRow): string | undefined {
      if (row.is === "hot-air") return text().tools(row.count);
      if (row.is !== "person" || row.person.hours === undefined) return undefined;
      const own = { timeZone: board.kitchen().settings.timeZone, opening: row.person.hours };
      const nowMs = board.nowMs();
      const comesMs = openFromMs(own, nowMs);
      const when = (atMs: number): string => words().format.when(atMs, nowMs);
      if (comesMs > nowMs) return text().from(when(comesMs));
      const goesMs = nextClosingMs(own, nowMs);
      return Number.isFinite(goesMs) ? text().until(when(goesMs)) : undefined;
    },
    /** "14:05–14:40: flood 27, 28 in moss", "27, 28 dry through by 18:20". */
    stretch(one: Block | DryBar): string {
      const { trays } = one;
      const nowMs = board.nowMs();
      if (!("isPlanned" in one))
        return text().act(
          words().format.bandTimes({ earliestMs: one.fromMs, latestMs: one.toMs }, nowMs),
          doing(one),
          trays,
        );
      if (!Number.isFinite(one.toMs)) return text().neverDries(trays);
      return text().dries(trays, words().format.when(one.toMs, nowMs), one.isPlanned);
    },
  };
}
