import type { ActName, LaidBy } from "#shared/kitchen/tray/route.ts";
import { unreachable } from "#shared/outcome.ts";
import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";
import { drying } from "./drying.ts";
import { FINDINGS, PROBLEMS, terms } from "./terms.ts";

const LAY: Record<LaidBy, string> = { pipe: "Trazar", flood: "Rellenar", "top-coat": "Cubrir" };
const TO_LAY: Record<LaidBy, string> = { pipe: "trazar", flood: "rellenar", "top-coat": "cubrir" };
const LAID: Record<LaidBy, string> = { pipe: "Trazada", flood: "Rellenada", "top-coat": "Cubierta" };

export const trays = (format: Formats): Words["trays"] => {
  const { name, span, sentence } = format;
  const { cookies, consistencies } = terms(format);
  const act = (named: ActName): string => {
    switch (named.kind) {
      case "flood":
        return `${LAY[named.how]} capa ${named.layer + 1}`;
      case "flooding":
        return `${LAID[named.how]}: iniciar el secado`;
      case "heat":
        return "Fijada al tacto: parar";
      case "pack":
        return `Empacar ${named.count}`;
      case "packed":
        return "Empacada";
      case "touch":
        return "Comprobar al tacto";
      default:
        return unreachable(named);
    }
  };
  const toAct = (named: ActName): string =>
    named.kind === "flood" ? `${TO_LAY[named.how]} la capa ${named.layer + 1}` : act(named).toLowerCase();
  /** "antes de las 15:05", "antes del dom 16:24". */
  const before = (atMs: number, nowMs: number): string => {
    const moment = format.when(atMs, nowMs);
    return /^\d+[:.]/.test(moment) ? `antes de las ${moment}` : `antes del ${moment}`;
  };
  const heatBy = (what: string, atMs: number, leftMin: number): string =>
    `fijar con calor ${what} antes de las ${format.time(atMs)}, quedan ${span(leftMin)}`;
  const heatOver = (what: string): string => `ya pasó el tiempo de fijar ${what}. Vigile el centro`;
  return {
    act,
    sooner: (named) => `${act(named)} antes`,
    thenAct: (named) => `después ${toAct(named)}`,
    hot: (untilMs, number) =>
      `Bandeja ${number === undefined ? "" : `${number} `}caliente hasta cerca de las ${format.time(untilMs)}: guantes secos.`,
    startBy: (byMs, nowMs) => `empezar ${before(byMs, nowMs)}`,
    startNow: "empezar ya",
    forPickUp: (pickUp) => `para ${pickUp}`,
    giveTo: "Asignarla a",
    given: (tray, person) => `La bandeja ${tray} es ahora de ${format.name(person)}`,
    likeliest: (when) => `lo más probable ${when}`,
    latest: "a más tardar",
    layersLaid: (laid, layers) => `${format.number(laid)} de ${format.number(layers)} capas puestas`,
    heatPaused: "Espera a «Poner calor»",
    someNotGood: "Algunas no están bien",
    secondsAre: (count) => `${format.number(count)} de segunda`,
    yoursNext: "Lo suyo ahora",
    everyonesNext: "Lo de todos ahora",
    whose: "De quién",
    mine: "Mías",
    everyones: "De todos",
    toStart: (isMine) => `Por empezar${isMine ? " · aún de nadie" : ""} · según el plan del día`,
    moreToStart: (count) => `y ${format.number(count)} más por empezar`,
    noneYet: "Aún no hay bandejas.",
    noneMine: "Ninguna bandeja es suya y ninguna espera a empezarse.",
    allPacked: "Todas las bandejas están empacadas.",
    addOrder: "Añadir un pedido y sus bandejas",
    appearHere: "Aparecen aquí cuando un responsable añade un pedido con sus bandejas.",
    noTray: (typed) => `No hay bandeja ${typed}`,
    asLastHeard: "según lo último",
    waitToStart: "por empezar",
    pastLatest: "pasado su límite",
    readyNow: "lista ahora",
    waiting: (minutes) => `espera ${span(minutes)}`,
    readyTo: (named, when) => `lista para ${named.kind === "pack" ? "empacar" : toAct(named)}, ${when}`,
    willNotDry: "Aquí no se secará",
    moveIt: "muévala",
    noForecast: "sin pronóstico: guíese por el tacto",
    fullDry: "Secado completo",
    crusting: (layer) => `Formando costra, capa ${layer}`,
    underHeat: (layer) => `Bajo calor, capa ${layer}`,
    inHand: (layer) => `En mano, capa ${layer}`,
    needleUntil: (inWords) => `pinchar burbujas: la costra cierra en ${inWords}`,
    needle: "pinchar burbujas mientras está húmeda",
    someone: "alguien",
    noTrayNow: "Ahora ninguna bandeja tiene este número. Quizá se empacó y archivó.",
    pickUp: (when) => `retiro ${when}`,
    oneLayerLaid: "Su única capa está puesta",
    allLaid: (layers) => `Las ${layers} capas están puestas`,
    layerOf: (layer, layers) => `Capa ${layer} de ${layers}`,
    layer: (icing, consistency, narrowestMm) =>
      `${name(icing ?? "glaseado")}, ${consistencies[consistency]}, parte más estrecha ${format.length(narrowestMm)}`,
    willNotDryWhy: (why) => `Aquí no se secará: ${drying(format).why(why)}`,
    notKept: "según lo último: no se actualiza",
    bands: { ready: "lista", skin: "costra", dry: "seca" },
    dryThrough: (earliest, latest, likely) =>
      `Seca por completo ${earliest}–${latest}, lo más probable ${likely}`,
    ifLaidNow: "si se aplica ahora",
    noAir: "aquí no se mide el aire: tiempos menos seguros",
    stuckAir: "el higrómetro parece atascado: tiempos menos seguros",
    oldAir: (when) => `sin lectura desde ${when}: tiempos menos seguros`,
    airElsewhere: (place) => `sin lectura reciente aquí: aire como en ${name(place)}`,
    touchPast: (when) => `Comprobar al tacto: pasó su límite, ${when}`,
    sink: ({ risk, setWithinMin, floodBeforeSetting, floodBeforeOven = 0 }, count) => {
      const likely = risk === "most" ? "Es probable que se hunda el centro" : "Puede hundirse el centro";
      const batch =
        floodBeforeSetting < count
          ? `: rellene ${cookies(floodBeforeSetting)} y fíjelas con calor, cada una`
          : ": fíjela con calor";
      const oven =
        floodBeforeOven <= floodBeforeSetting
          ? ""
          : `; para un horno rellene antes ${floodBeforeOven < count ? cookies(floodBeforeOven) : "la bandeja entera"}`;
      return `${likely}${batch} dentro de ${span(setWithinMin)} tras rellenar${oven}`;
    },
    setBy: ({ layer, set, count, isLaid, dueMs, leftMin }) => {
      const what =
        set === undefined
          ? isLaid
            ? "la capa"
            : "la primera galleta"
          : isLaid
            ? "el resto"
            : "la siguiente";
      const how =
        dueMs === undefined || leftMin === undefined
          ? undefined
          : leftMin > 0
            ? heatBy(what, dueMs, leftMin)
            : heatOver(what);
      if (set !== undefined) {
        const soFar = `${isLaid ? `Capa ${layer + 1}: ` : ""}${set} de ${count} fijadas`;
        return how === undefined ? soFar : `${soFar}. ${sentence(how)}`;
      }
      if (how === undefined) return "";
      return isLaid ? `La capa ${layer + 1} puede hundirse: ${how}` : sentence(how);
    },
    undoHint: "un toque, se deshace durante 20 s",
    riskHint: "un segundo toque nombra el riesgo",
    takeInHand: (named) => `Empezarla: ${toAct(named)}`,
    toTimer: "Bajo calor: ver el reloj",
    toTimerHint: "tiempo, siguiente galleta, parar",
    goodAndSpoiled: (good, spoiled) => `${good} buenas, ${spoiled} malas`,
    packedAt: (atMs, by) => `Empacada ${format.time(atMs)} por ${name(by ?? "la cocina")}`,
    said: {
      inHand: (tray) => `Bandeja ${tray} en mano`,
      clockStarted: (tray) => `Bandeja ${tray}: reloj en marcha`,
      packed: (tray) => `Bandeja ${tray} empacada`,
      found: (tray, layer, finding) => `Bandeja ${tray}, capa ${layer}: ${FINDINGS[finding]}`,
      givenBack: (tray) => `Bandeja ${tray} devuelta`,
      taken: (tray) => `Bandeja ${tray} tomada`,
      moved: (tray, place) => `Bandeja ${tray} a ${name(place)}`,
      movedMany: (count, place) =>
        `${format.count(count, { one: "bandeja", other: "bandejas" })} a ${name(place)}`,
      problem: (tray, count, problem) => `Bandeja ${tray}: ${count} ${PROBLEMS[problem]}`,
      takenBack: "Deshecho",
    },
    touchTest: "al tacto",
    touchLayer: (layer) => `tacto, capa ${layer}`,
    touchedLayer: (layer) => `Se tocó la capa ${layer}`,
    whichTouched: "Qué capa se tocó",
    heatSet: "Fijar con calor",
    move: "Mover",
    problem: "Problema",
    yours: "Suya",
    nobodys: "Aún de nadie",
    someones: (person) => `De ${name(person)}`,
    giveBack: "Devolverla",
    takeIt: "Tomarla",
    takeOver: "Pasármela",
    moveTray: (tray) => `Mover la bandeja ${tray}`,
    slot: "Nivel o ranura, si los usan",
    standsHere: "está aquí",
    wouldHelp: "esto ayudaría",
    roomFor: (count) => `caben ${format.number(count)}`,
    full: "lleno",
    toPlace: (place) => `A ${name(place ?? "ese lugar")}`,
    there: "ese lugar",
    tapEach: "Toque cada bandeja cuando esté ahí.",
    allThere: (count) => `Las ${format.number(count)} ya están ahí`,
    whatWrong: (tray) => `¿Qué pasó en la bandeja ${tray}?`,
    cookies: "Galletas",
    note: "Una nota, si ayuda",
    nothing: "Nada",
    history: (count) => `Historial · ${format.number(count)}`,
    theKitchen: "la cocina",
    you: "usted",
    accepted: (risk) => `aceptado: ${risk}`,
    waitingToSend: "por enviar",
    takenBackBy: (who) => `deshecho por ${name(who)}`,
    takeBack: "Deshacer",
  };
};
