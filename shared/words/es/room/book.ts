import type { BookRow } from "#shared/kitchen/calibration/book.ts";
import type { Formats, Plural } from "#shared/words/formats.ts";
import { terms } from "#shared/words/es/terms.ts";
import type { Words } from "#shared/words/words.ts";

const FILMS: Plural = { one: "capa", other: "capas" };

export const book = (format: Formats): Words["book"] => {
  const { toolKinds } = terms(format);
  const times = (count: number): string => format.count(count, { one: "vez", other: "veces" });
  const way = (pct: number): string => (pct < 0 ? "más rápido" : "más lento");
  const pace = (pct: number): string => `${format.percent(Math.abs(pct))} ${way(pct)}`;
  function range({ lowPct, highPct, likelyPct = 0 }: BookRow): string {
    if (lowPct * highPct < 0) return `de ${pace(lowPct)} a ${pace(highPct)}`;
    const [near, far] = [Math.abs(lowPct), Math.abs(highPct)].toSorted((a, b) => a - b);
    const isSaid = likelyPct * (lowPct + highPct) > 0;
    return `${near}–${format.percent(far ?? 0)}${isSaid ? "" : ` ${way(lowPct + highPct)}`}`;
  }
  return {
    name: ({ of, name, heat }) => {
      if (heat !== undefined) return format.sentence(toolKinds[heat]);
      return of === "kitchen" ? "Esta cocina" : format.sentence(format.name(name ?? ""));
    },
    line: ({ quantity, pace: known, right, films }) => {
      if (known === undefined)
        return "Aún no se sabe cómo secan aquí los rellenos: cada prueba al tacto enseña.";
      const verb = quantity === "skin" ? "forman costra" : "secan del todo";
      const beside =
        known.likelyPct === undefined ? "casi como dice el libro" : `${pace(known.likelyPct)} que el libro`;
      const count =
        films === 0
          ? "ningún pronóstico se comprobó al tacto todavía"
          : `el tablero acertó ${times(right)} de ${format.number(films)}`;
      return `Aquí los rellenos ${verb} ${beside}; ${count}.`;
    },
    row: (row) => {
      const { of, quantity, likelyPct, tests } = row;
      const sure = `(${range(row)}); ${format.count(tests, FILMS)}`;
      if (of !== "kitchen") return `${likelyPct === undefined ? "casi igual" : pace(likelyPct)} ${sure}`;
      const verb = quantity === "skin" ? "forma costra" : "seca del todo";
      const beside = likelyPct === undefined ? "casi igual que" : `${pace(likelyPct)} que`;
      return `${verb} ${beside} el libro ${sure}`;
    },
  };
};
