import { unreachable } from "#shared/outcome.ts";
import { fallIn, touchTimes, type ToolFact } from "#shared/words/heat-facts.ts";
import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";

export const heat = (format: Formats): Words["heat"] => {
  const { stopwatch, span, temp, name } = format;
  const use = (fact: ToolFact): string => {
    switch (fact.use) {
      case "on":
        return `encendida ${span(fact.onMin)}, ${name(fact.holder ?? "alguien")}`;
      case "cooling":
        return `apagada, caliente unos ${span(fact.leftMin)} más`;
      case "off":
        return "apagada";
      default:
        return unreachable(fact);
    }
  };
  return {
    title: "Calor",
    of: (tray) => `Fijar con calor la bandeja ${tray}`,
    none: "Ninguna bandeja está bajo calor. Se empieza desde una bandeja.",
    tools: "Herramientas",
    noTools: "Aún no hay. Un responsable las añade en Sala → Cocina.",
    noToolsYet: "La cocina aún no tiene herramientas de calor. Un responsable las añade en Sala → Cocina.",
    set: (tempC) => `a ${temp(tempC)}`,
    underWhich: "Con qué herramienta",
    start: "Empezar el calor",
    readAndStart: "Leído: empezar el calor",
    startHint: (kind) =>
      kind === "hot-air"
        ? "arranca el reloj de la primera galleta"
        : "el reloj de la bandeja arranca al cerrar la puerta",
    started: (tray) => `Bandeja ${tray}: empezó el calor`,
    ended: (tray) => `Bandeja ${tray}: terminó el calor`,
    stoppedUnset: (tray) => `Bandeja ${tray}: parada, aún sin fijar`,
    running: { stop: "Parar el calor", on: "Bajo calor" },
    runningLine: (tool, who, stopByS) =>
      `${name(tool)} · ${name(who ?? "alguien")} · parar a ${stopwatch(stopByS)}`,
    tool: (fact) => {
      const now = use(fact);
      if (fact.outOfService === undefined) return now;
      return fact.use === "off"
        ? `fuera de servicio: ${name(fact.outOfService)}`
        : `fuera de servicio: ${name(fact.outOfService)} · ${now}`;
    },
    read: (tempC, atMs) => `midió ${temp(tempC)} a las ${format.time(atMs)}`,
    cookieOf: (cookie, count) => `Galleta ${cookie} de ${count}`,
    cookieSet: (cookie) => `Galleta ${cookie} fijada`,
    touch: (kind, limits) => {
      const isChamber = kind !== "hot-air";
      const touch = isChamber ? "sacar con guantes secos y tocar" : "tocar";
      return fallIn(touchTimes(limits), {
        already: `quizá ya fijada: ${touch}${isChamber ? "" : " ya"}`,
        by: (toS) => `${touch} antes de ${stopwatch(toS)}`,
        at: (s) => `${touch} a ${stopwatch(s)}`,
        between: (fromS, toS) => `${touch} ${stopwatch(fromS)}–${stopwatch(toS)}`,
      });
    },
    mayNotSet: "quizá no se fije",
    stopBy: (stopByS) => `parar a ${stopwatch(stopByS)}`,
    pastStopBy: (pastS, stopByS) => `${stopwatch(pastS)} pasado el límite ${stopwatch(stopByS)}`,
    stopByLine: ({ stopByS, capS }, isHeard) => {
      const [by, cap] = [stopwatch(stopByS), stopwatch(capS)];
      const then = isHeard ? ", cuando se avisa a toda la sala." : ": sin conexión, no se avisa a la sala.";
      return `Parar a ${by}${then}${cap === by ? "" : ` Tope fijo ${cap}.`}`;
    },
    stopNow: (isHeard) =>
      `Pare ya: ${isHeard ? "se avisa a toda la sala" : "sin conexión, no se avisa a la sala"}`,
    passed: ({ stopByS, why }) =>
      `Pasó de ${stopwatch(stopByS)} (${
        {
          "icing temperature": "temperatura del glaseado",
          "set time": "tiempo de fijado",
          "tool's cap": "tope de la herramienta",
        }[why]
      }).`,
    hints: {
      "skinned already": "Probablemente ya tiene costra: toque antes de calentar.",
      "too hot before set":
        "Probablemente se caliente demasiado antes de fijarse: use menos calor o deje secar con aire en movimiento.",
      "will not set": "Probablemente no se fije a tiempo: pare ahí y deje secar con aire en movimiento.",
    },
    nextCookie: "Fijada: siguiente galleta",
    nextCookieHint: "su reloj espera a «Poner calor»",
    heatOn: "Poner calor",
    heatOnHint: (cookie) => `arranca el reloj de la galleta ${cookie}`,
    heatIsOn: (cookie) => `Calor sobre la galleta ${cookie}`,
    nextUp: (cookie) => `Galleta ${cookie}: rellénela si falta y toque «Poner calor».`,
    goesDark: {
      "no-lock":
        "Este navegador no puede mantener la pantalla encendida: tóquela de vez en cuando. Apagada no puede avisarle.",
      "plain-connection":
        "Con esta conexión simple la pantalla puede apagarse: tóquela de vez en cuando. Apagada no puede avisarle.",
      refused:
        "Este teléfono puede apagar la pantalla, por ejemplo con poca batería: tóquela de vez en cuando. Apagada no puede avisarle.",
    },
    noClock: "Ningún reloj corre. Hasta entonces no apunte el aire caliente al glaseado.",
    heldStill: (heldTooLongS) =>
      `Quieto sobre un punto, el glaseado se calienta demasiado en ${stopwatch(heldTooLongS)}: manténgalo en movimiento.`,
    setStop: "Fijada al tacto: parar",
    restDries: (had, count) => `${had} de ${count} con calor: el resto se seca`,
    notYet: "Aún sin fijar: parar",
    spoiled: "¿Agrietada o hinchada? Parar y anotarlo",
    spoiledTitle: "Agrietadas o hinchadas",
    cookies: "Galletas",
    stopAndRecord: (count) => `Parar y anotar ${count}`,
    goOn: "Seguir calentando",
    offNow: (tool) => `${name(tool)}: ¿ya apagada?`,
    isOff: (kind) => (kind === "hot-air" ? "Apagada y en su soporte" : "Apagada"),
    offHint: "empieza su cuenta atrás de enfriado",
    stillInUse: "Sigue en uso",
    off: (tool) => `${name(tool)} apagada`,
    on: (tool) => `${name(tool)} encendida`,
    keptOn: (tool) => `${name(tool)} sigue en uso`,
    itsTemperature: "Su temperatura",
    enter: "Anotar",
    enterTemperature: "Anotar su temperatura",
    asRead: (tool) => `${name(tool)}: temperatura medida`,
    wasRead: (tool) => `${name(tool)} medida`,
    setTo: (tempC, mostC) => `puesta a ${temp(tempC)}, máximo ${temp(mostC)}`,
    overTrays: (numbers) => `sobre la bandeja ${numbers.join(", ")}`,
    itIsOn: "Está encendida",
    itIsOff: "Está apagada",
    handOver: "Entregar",
    handedTo: (tool, person) => `${name(tool)} a ${name(person)}`,
    noOneElse: "Nadie más se ha unido.",
    outOfService: "Fuera de servicio",
    takenOut: (tool) => `${name(tool)} fuera de servicio`,
    whatIsWrong: "Qué le pasa",
    takeOut: "Retirarla del servicio",
    backInService: "De nuevo en servicio",
    isBack: (tool) => `${name(tool)} de nuevo en servicio`,
    leadPutsBack: "Un responsable la vuelve a poner en servicio.",
    back: "Atrás",
    shiftEnd: "Revisión de fin de turno",
    beforeYouGo: "Antes de irse",
    allClear:
      "Según lo anotado, todas las herramientas están apagadas y frías, y ninguna bandeja está bajo calor ni a medio rellenar. Mire las herramientas de todos modos.",
    underHeat: (numbers) => `Bajo calor: ${numbers}.`,
    stopTheseFirst: "Párelas antes.",
    inHand: (numbers) => `En mano: ${numbers}.`,
    startClocks: "Arranque sus relojes de secado o entréguelas.",
    dryingOvernight: (numbers) =>
      `Secándose sin calor: ${numbers}. Si su glaseado y relleno pueden quedar fuera por la noche lo decide el plan de su cocina.`,
    sinking: ({ films, sunk }) => {
      const names = {
        "in time": "fijadas a tiempo",
        late: "fijadas tarde",
        "not set": "sin fijar",
      } as const;
      const parts = (["in time", "late", "not set"] as const).flatMap((setting) =>
        films[setting] === 0
          ? []
          : [
              `${films[setting]} ${names[setting]}${sunk[setting] === 0 ? "" : ` (${sunk[setting]} hundidas)`}`,
            ],
      );
      return `Partes pequeñas en este tablero: ${parts.join(", ")}.`;
    },
  };
};
