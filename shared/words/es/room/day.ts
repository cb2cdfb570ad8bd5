import type { ReachedBand } from "#shared/drying/uncertainty/band.ts";
import type { Climate } from "#shared/drying/air-record/measured-air.ts";
import { unreachable } from "#shared/outcome.ts";
import type { BesideDay, DayRow, HeadlineAir, OtherDay } from "#shared/kitchen/day-sheet/sheet.ts";
import { isSamePace, type Pace, paceOf } from "#shared/kitchen/day-sheet/pace.ts";
import type { Consistency } from "#shared/kitchen/model/vocabulary.ts";
import { halfHours } from "#shared/words/clock-band.ts";
import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";
import { drying } from "#shared/words/es/drying.ts";

type ReachedSpan = ReachedBand;

const SUBJECTS: Readonly<Record<Consistency, string>> = {
  outline: "Un contorno",
  "top-coat": "Una cobertura",
  flood: "Un relleno",
  detail: "Un detalle",
};
const AIRS = {
  wetter: "Más húmedo",
  drier: "Más seco",
  colder: "Más frío",
  warmer: "Más cálido",
} as const;
const THAN: Readonly<Record<OtherDay, string>> = { yesterday: "que ayer", usual: "que de costumbre" };
const LIKE: Readonly<Record<OtherDay, string>> = { yesterday: "como ayer", usual: "como de costumbre" };
const SHARES = { tenth: "un décimo", fifth: "un quinto", quarter: "un cuarto", third: "un tercio" } as const;

export const day = (format: Formats): Words["day"] => {
  const { whySentence } = drying(format);
  const humidity = (rhPct: number): string => `${format.percent(rhPct)} HR`;
  const air = ({ tempC, rhPct }: Climate): string => `${format.temp(tempC)}, ${humidity(rhPct)}`;
  const span = (reached: ReachedSpan): string => format.bandOf(reached);

  function pace(pace: Exclude<Pace, { code: "alike" }>): string {
    switch (pace.code) {
      case "slower":
        return `cerca de ${SHARES[pace.by]} más lento`;
      case "quicker":
        return `cerca de ${SHARES[pace.by]} más rápido`;
      case "half-longer":
        return "cerca de la mitad más de tiempo";
      case "times-as-long":
        return pace.times === 2
          ? "cerca del doble de tiempo"
          : `cerca de ${format.number(pace.times)} veces más tiempo`;
      case "half":
        return "cerca de la mitad del tiempo";
      case "third":
        return "cerca de un tercio del tiempo";
      case "quarter-at-most":
        return "un cuarto del tiempo o menos";
      default:
        return unreachable(pace);
    }
  }
  /** "cerca de un tercio más lento que ayer y que de costumbre". */
  const compared = (to: Pace, ...days: readonly OtherDay[]): string =>
    to.code === "alike"
      ? `más o menos ${days.map((day) => LIKE[day]).join(" y ")}`
      : `${pace(to)} ${days.map((day) => THAN[day]).join(" y ")}`;
  function beside(last: number | undefined, most: number | undefined): string {
    const [lastPace, mostPace] = [last, most].map((ratio) =>
      ratio === undefined ? undefined : paceOf(ratio),
    );
    if (lastPace !== undefined && mostPace !== undefined && isSamePace(lastPace, mostPace))
      return `: ${compared(lastPace, "yesterday", "usual")}`;
    const told = [
      ...(lastPace === undefined ? [] : [compared(lastPace, "yesterday")]),
      ...(mostPace === undefined ? [] : [compared(mostPace, "usual")]),
    ];
    return told.length === 0 ? "" : `: ${told.join(", ")}`;
  }
  const besideBoth = (row: DayRow, quantity: keyof BesideDay & `${string}Ratio`): string =>
    beside(row.yesterday?.[quantity], row.usual?.[quantity]);

  const dayName = (atMs: number, nowMs: number): string =>
    ["hoy", "mañana"][format.daysAhead(atMs, nowMs)] ?? format.day(atMs);
  function clockBand(nowMs: number, from: ReachedSpan): string {
    const { fromMs, toMs } = halfHours(nowMs, from);
    const [first, last] = [dayName(fromMs, nowMs), dayName(toMs, nowMs)];
    return first === last
      ? `${first} ${format.timeRange(fromMs, toMs)}`
      : `de ${first} ${format.time(fromMs)} a ${last} ${format.time(toMs)}`;
  }
  function airBeside(beside: HeadlineAir): string {
    const { today } = beside;
    if (beside.code === "alone") return `Aire a ${humidity(today.rhPct)}, ${format.temp(today.tempC)}.`;
    const { other } = beside;
    const against =
      beside.code === "wetter" || beside.code === "drier"
        ? `${humidity(today.rhPct)} frente a ${format.percent(other.rhPct)}`
        : `${format.temp(today.tempC)} frente a ${format.temp(other.tempC)}`;
    return `${AIRS[beside.code]} ${THAN[beside.day]}: ${against}.`;
  }

  return {
    noSheet:
      "Aún no hay pronóstico de un lugar con el aire de la sala. Un responsable lo añade en Sala → Lugares.",
    now: (today) => `Ahora ${air(today)}`,
    yesterday: (then) => `ayer a esta hora ${air(then)}`,
    usually: (then) => `de costumbre ${air(then)}`,
    days: { today: "hoy", yesterday: "ayer", usual: "de costumbre" },
    skinsIn: "costra en",
    dryThroughIn: "secado completo en",
    never: "nunca",
    print: "Imprimir esta página",
    footnote: ({ ahead }) =>
      `Del más temprano al más tardío, para una capa puesta ahora con su grosor habitual. ${
        ahead === "persistence"
          ? "Se supone que el aire sigue como está."
          : "Se supone que el aire cambia durante el día como en la última semana."
      } La prueba al tacto manda.`,
    missing: (missing) => {
      switch (missing.code) {
        case "never-read":
          return "No se ha leído ningún higrómetro: el aire de hoy se supone.";
        case "not-read-since":
          return `No hay lecturas desde ${format.dayTime(missing.atMs)}: hoy no se puede comparar.`;
        case "no-yesterday":
          return "Ayer no hubo lecturas a esta hora.";
        case "no-usual":
          return `Menos de ${format.number(missing.daysLeast)} días anteriores tienen lecturas a esta hora: aún no se sabe qué es lo habitual.`;
        default:
          return unreachable(missing);
      }
    },
    compared,
    row: (row) => {
      const subject = SUBJECTS[row.consistency];
      const { skin, dryThrough } = row.today;
      if ("never" in skin) return `${subject} no formará costra hoy. ${whySentence(skin.never)}`;
      const skins = `${subject} forma costra hoy en ${span(skin)}${besideBoth(row, "skinRatio")}.`;
      if ("never" in dryThrough) return `${skins} No secará por completo. ${whySentence(dryThrough.never)}`;
      return `${skins} Seca por completo en ${span(dryThrough)}${besideBoth(row, "dryThroughRatio")}.`;
    },
    headline: (line) => {
      if (line.code === "alike")
        return {
          air: `Aire ${LIKE[line.day]}: los rellenos forman costra en ${span(line.skin)}.`,
          films: undefined,
        };
      const { skin, dryThrough, day, skinPace, dryThroughPace } = line;
      const air = airBeside(line.air);
      if ("never" in skin)
        return { air, films: `Los rellenos no formarán costra. ${whySentence(skin.never)}` };
      const skins = `Los rellenos forman costra en ${span(skin)}${skinPace === undefined ? "" : `, ${compared(skinPace, day)}`}`;
      if ("never" in dryThrough)
        return { air, films: `${skins}, y no secarán por completo. ${whySentence(dryThrough.never)}` };
      const differs = dryThroughPace === undefined ? "" : `, ${compared(dryThroughPace, day)}`;
      return {
        air,
        films: format.stop(`${skins}; secado completo ${clockBand(line.atMs, dryThrough)}${differs}`),
      };
    },
  };
};
