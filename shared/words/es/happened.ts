import type { FoundBeside, StripPart } from "#shared/kitchen/calibration/tray-strip.ts";
import type { LaidBy } from "#shared/kitchen/tray/route.ts";
import { unreachable } from "#shared/outcome.ts";
import type { Formats, Plural } from "#shared/words/formats.ts";
import { sayNumbers } from "#shared/words/tray-numbers.ts";
import type { Words } from "#shared/words/words.ts";
import { PROBLEMS, terms } from "./terms.ts";
import { trace } from "./trace.ts";
import { trays as trayWords } from "./trays.ts";

const TRAYS: Plural = { one: "bandeja", other: "bandejas" };
const LAYING: Record<LaidBy, string> = { pipe: "trazando", flood: "rellenando", "top-coat": "cubriendo" };
const BEGUN: Record<LaidBy, string> = { pipe: "trazo", flood: "relleno", "top-coat": "cobertura" };

export const happened = (format: Formats): Words["happened"] => {
  const { name, when, number } = format;
  const { cookies } = terms(format);
  /** Every one of them. */
  const trays = (numbers: readonly number[]): string =>
    `${format.plural(numbers.length, TRAYS)} ${sayNumbers(numbers)}`;
  const stage = ({ stage, how, layer }: StripPart): string => {
    switch (stage) {
      case "laying":
        return `${LAYING[how]} la capa ${layer + 1}`;
      case "heat":
        return `calor en la capa ${layer + 1}`;
      case "crusting":
        return "formando costra";
      case "full-dry":
        return "secado completo";
      default:
        return unreachable(stage);
    }
  };
  const range = (fromMs: number, toMs: number, nowMs: number): string =>
    format.bandTimes({ earliestMs: fromMs, latestMs: toMs }, nowMs);
  const foundWhen = ({ notYetMs, byMs }: FoundBeside, nowMs: number): string => {
    const by = byMs === undefined ? undefined : `ya ${when(byMs, nowMs)}`;
    if (notYetMs === undefined) return by ?? "";
    const notYet = `aún no ${when(notYetMs, nowMs)}`;
    return by === undefined ? notYet : `${notYet}, ${by}`;
  };
  return {
    title: "Qué pasó",
    part: (part, nowMs) => `${range(part.fromMs, part.toMs, nowMs)}: ${stage(part)}`,
    begun: ({ how, fromMs }, nowMs) => `${when(fromMs, nowMs)} ${BEGUN[how]}`,
    packedAt: (atMs, nowMs) => `empacada ${when(atMs, nowMs)}`,
    now: "ahora",
    asList: "Etapa por etapa",
    legend: { laying: "puesta", heat: "calor", crusting: "costra", "full-dry": "secado completo" },
    found: (found, nowMs) => {
      const { layer, icing, quantity, shown, is } = found;
      const of = icing === undefined ? "" : `, ${name(icing)}`;
      const what = quantity === "skin" ? "costra" : "secado completo";
      const verdict = {
        inside: "Concuerda con lo previsto",
        sooner: "Antes de lo previsto",
        later: "Después de lo previsto",
      }[is];
      return `Capa ${layer + 1}${of}, ${what}: previsto ${format.bandTimes(shown, nowMs)}, al tacto ${format.stop(foundWhen(found, nowMs))} ${verdict}.`;
    },
    problems: "Problemas de hoy",
    noProblems: "Hoy no se anotó ningún problema.",
    likely: "Causas probables, sin comprobar:",
    problemKinds: PROBLEMS,
    problem: (kind, count, numbers) => `${cookies(count)} ${kind}, en ${trays(numbers)}`,
    cause: (cause, batch, nowMs) => {
      const on = trays(cause.trays);
      switch (cause.code) {
        case "damp-air":
          return `aire húmedo, ${format.percent(cause.rhPct)} HR: ${on}`;
        case "laid-early":
          return `puesta antes de terminar la espera: ${on}`;
        case "not-set-in-time":
          return `sin fijar con calor a tiempo: ${on}`;
        case "overheated":
          return `demasiado calor: ${on}`;
        case "batch": {
          const which = batch === undefined ? "una tanda" : `tanda de ${trace(format).batch(batch, nowMs)}`;
          return `${which}${cause.isWrong ? ", que salió mal" : ""}: ${on}`;
        }
        default:
          return unreachable(cause);
      }
    },
    unexplained: (numbers) => `sin causa a la vista: ${trays(numbers)}`,
    hands: "Manos por capa, hoy",
    handsColumns: { layer: "capa", tray: "una bandeja", cookie: "una galleta", timed: "bandejas medidas" },
    noHands: "Hoy no se midió ninguna capa: toque empezar antes de ponerla y luego puesta.",
    handOver: "Relevo de turno",
    noteTitle: "Para el turno siguiente",
    noNote: "No hay ninguna nota.",
    noteBy: (by, atMs, nowMs) => `${name(by ?? "la cocina")}, ${when(atMs, nowMs)}`,
    note: "Nota",
    noteHint: "La ven todos hasta que alguien diga que está resuelta.",
    leaveNote: "Dejar una nota",
    changeNote: "Cambiar la nota",
    keepNote: "Guardar la nota",
    noteLeft: "Nota dejada",
    dealtWith: "Está resuelta",
    noteDone: "Nota resuelta",
    wet: "Qué está húmedo y dónde",
    nothingIced: "No hay glaseado húmedo ni secándose.",
    surfaces: {
      "in hand": "en mano",
      "under heat": "con calor",
      wet: "con glaseado húmedo",
      skinned: "con costra, secándose",
    },
    surface: (surface, numbers) => `${surface}: ${trays(numbers)}`,
    due: "Lo que sigue",
    noneDue: "No sigue nada.",
    dueAct: ({ act, tray }) => `Bandeja ${tray}: ${trayWords(format).act(act)}`,
    dueAt: (atMs, nowMs) =>
      atMs === undefined ? "sin previsión" : atMs <= nowMs ? "ahora" : when(atMs, nowMs),
    moreDue: (count) => `y ${number(count)} más`,
    pickUps: "Próximos retiros",
    toolsOn: "Equipos encendidos",
    noToolsOn: "Ningún equipo está encendido.",
    outOfService: (tool, reason) => `${name(tool)} está fuera de servicio: ${reason}`,
    asOf: (atMs) => `Según lo último, ${format.dayTime(atMs)}`,
    print: "Imprimir esta página",
  };
};
