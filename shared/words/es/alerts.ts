import { unreachable } from "#shared/outcome.ts";
import type { AlertNames } from "#shared/kitchen/alerts/names.ts";
import type { AlertText, AlertTexts } from "#shared/words/alert-texts.ts";
import type { Formats } from "#shared/words/formats.ts";
import { fewNames } from "#shared/words/few-names.ts";
import type { Consistency, ToolKind } from "#shared/kitchen/model/vocabulary.ts";
import type { Words } from "#shared/words/words.ts";
import { terms as makeTerms } from "./terms.ts";

const HUMIDITY_TELLS = 3;
const LOST = "Teléfono sin conexión o en silencio";

export const alerts = (format: Formats): Words["alerts"] => {
  const terms = makeTerms(format);
  const { stopwatch, name } = format;
  const isChamber = (kind: ToolKind): boolean => kind !== "hot-air";
  const icing = (names: AlertNames, consistency: Consistency): string =>
    `${names.icing === undefined ? "Glaseado" : name(names.icing)} (${terms.consistencies[consistency]})`;
  const adviceText = (what: string): AlertText => ({
    act: "Vea qué ayudaría",
    what,
    todo: "Ventilador, armario tibio, fijar con calor, aire más seco",
  });
  const missing = (count: number): string => `${count === 1 ? "Falta" : "Faltan"} ${terms.cookies(count)}`;

  const texts: AlertTexts = {
    "heat-running-long": ({ recipients }, { leads }) =>
      recipients.leads
        ? {
            act: "Detenga el calor",
            what: "Más de un minuto de exceso",
            todo: `${leads.length === 0 ? "Un responsable" : fewNames(leads, format)}: vaya a terminarlo`,
          }
        : { act: "Detenga el calor", what: "Pasó su límite", todo: "Retire el calor y busque grietas" },
    "heat-near-stop": ({ toolKind, stopByS, isPhoneLost }) => ({
      act: isChamber(toolKind) ? "Sáquela" : "Tóquela ya",
      what: "Calor casi en su límite",
      todo: `${isChamber(toolKind) ? "Con guantes secos, luego tóquela. " : ""}Parar a los ${stopwatch(stopByS)}${isPhoneLost ? `. ${LOST}` : " como máximo"}`,
    }),
    "heat-unwatched": ({ toolKind, stopByS, checkFromS }) => {
      const touch = isChamber(toolKind) ? "sáquela con guantes secos y tóquela" : "tóquela";
      const when = checkFromS < 1 ? "ya" : `desde los ${stopwatch(checkFromS)}`;
      return {
        act: "Vigile este calor",
        what: LOST,
        todo: `Parar a los ${stopwatch(stopByS)}; ${touch} ${when}`,
      };
    },
    "heat-unchecked": () => ({
      act: "Vigile el calor",
      what: "Este teléfono no puede revisar las alarmas de calor",
      todo: "Vigile usted cada herramienta",
    }),
    "set-check-by-touch": ({ toolKind, isPhoneLost }) => ({
      act: "Revise al tacto",
      what: "Puede estar fijado",
      todo: `${isChamber(toolKind) ? "Sáquela con guantes secos, luego toque" : "Toque"} un borde con suavidad. Un leve brillo es normal; pare si se opaca o se abomba${isPhoneLost ? `. ${LOST}` : ""}`,
    }),
    "tool-left-on": () => ({
      act: "Apague",
      what: "Encendido y sin bandeja",
      todo: "O diga que sigue en uso",
    }),
    "oven-too-hot": ({ toolKind }) =>
      isChamber(toolKind)
        ? {
            act: "Saque las bandejas",
            what: "Más caliente de lo debido para galletas glaseadas",
            todo: "Con guantes secos; baje el calor y vuelva a medir",
          }
        : {
            act: "Apague",
            what: "Más caliente de lo debido para galletas glaseadas",
            todo: "Deje enfriar y vuelva a medir",
          },
    "bubbles-last-chance": ({ isInHand }) =>
      isInHand
        ? {
            act: "Pinche burbujas",
            what: "Primeras galletas: última ocasión para las burbujas",
            todo: "En las primeras la costra puede cerrar en minutos",
          }
        : {
            act: "Pinche burbujas",
            what: "Última ocasión para las burbujas",
            todo: "Asiente también el glaseado: la costra puede cerrar en minutos",
          },
    "will-sink": ({ risk }) => ({
      act: "Fije con calor ya",
      what:
        risk === "most"
          ? "Las secciones pequeñas muy probablemente se hundirán"
          : "Las secciones pequeñas pueden hundirse",
      todo: "En los próximos minutos, antes de que cierre la costra",
    }),
    "icing-too-old": ({ consistency, useByAtMs, startedAtMs }, names) => {
      const isSameDay = format.day(useByAtMs) === format.day(startedAtMs);
      return {
        act: "Use glaseado fresco",
        what: `${icing(names, consistency)} pasó su hora límite de uso`,
        todo: `${format.stop(`Se debía usar antes de: ${isSameDay ? format.time(useByAtMs) : format.dayTime(useByAtMs)}`)} Deciden el plan de su cocina y las normas locales`,
      };
    },
    "waiting-long": ({ trays, hurry }) => ({
      act: "Siga con estas",
      what: `${format.sentence(terms.trays(trays))}: demasiada espera`,
      todo:
        hurry.is === "before closing"
          ? `El pedido se debe empacar antes de: ${format.time(hurry.packBeforeMs)}`
          : hurry.is === "short of time"
            ? "Al pedido no le alcanza el tiempo"
            : "Al pedido le sobra poco tiempo",
    }),
    "pick-up-at-risk": ({ risk }) => {
      switch (risk.is) {
        case "not on trays":
        case "spoiled":
          return {
            act: "Empiécelas ya",
            what:
              risk.is === "spoiled"
                ? `${missing(risk.cookies)} que se dañaron`
                : `${terms.cookies(risk.cookies)} aún sin bandeja`,
            todo: "O cambie el pedido: no pueden estar listas para el retiro",
          };
        case "never dries":
          return adviceText("No secará donde está");
        case "late": {
          const what = risk.hasMissed ? "No llegó a su retiro" : "Es probable que no llegue a su retiro";
          if (risk.help === "advice") return adviceText(what);
          return risk.help === "pack"
            ? { act: "Empaque", what, todo: "Está seco" }
            : { act: "Revise al tacto", what, todo: "Luego empaque" };
        }
        case "may be late":
          return {
            act: "Esté pendiente",
            what: "Podría no llegar a su retiro",
            todo: "Es probable que llegue, pero no si seca lo más tarde posible",
          };
        default:
          return unreachable(risk);
      }
    },
    "order-short": ({ cookies }) => ({
      act: "Empiece una bandeja de reposición",
      what: missing(cookies),
      todo: "O cambie el pedido: hubo galletas dañadas",
    }),
    "will-not-dry-here": ({ trays }) => ({
      act: `Mueva ${terms.trays(trays)}`,
      what: "Demasiada humedad para secar glaseado",
      todo: "A un aire más seco o más cálido, o seque la sala",
    }),
    "air-changed": ({ rhPctBy, later, sooner }) => ({
      act: "Vea los tiempos",
      what: humidityChange(rhPctBy),
      todo: `Pronósticos cambiados: ${format.and([...(later > 0 ? [`${later} más tarde`] : []), ...(sooner > 0 ? [`${sooner} más pronto`] : [])])}`,
    }),
    "sensor-silent": () => ({
      act: "Revise su corriente y su red",
      what: "El higrómetro dejó de informar",
      todo: "Mientras tanto los pronósticos allí son menos seguros",
    }),
    "device-waits": ({ as, isLead }, { holder = "alguien" }) => ({
      act: "Déjelo entrar o rechácelo",
      what: `${as === "bench" ? "Una pantalla de mesa" : "Un teléfono"} pide entrar como ${name(holder)}${isLead ? ", que es responsable" : ""}`,
      todo: "Solo si sabe de quién es",
    }),
  };

  function humidityChange(rhPctBy: number): string {
    const points = Math.round(Math.abs(rhPctBy));
    if (points < HUMIDITY_TELLS) return "El aire cambió";
    return `La humedad ${rhPctBy > 0 ? "subió" : "bajó"} ${points} puntos`;
  }

  return {
    texts,
    humidityChange,
    offline: "Sin conexión: nadie más recibe la alerta.",
    about: (subject, what) => `${name(subject)}: ${what}`,
    tray: (number) => `Bandeja ${number}`,
    label: "Alertas",
    urgentLabel: "Alertas urgentes",
    show: "ver",
    hide: "ocultar",
    seen: "Visto",
    inTenMinutes: "En 10 min",
    isOff: "Está apagado",
    stillInUse: "Sigue en uso",
    letIn: "Dejar entrar",
    turnAway: "Rechazar",
    isLetIn: "Puede entrar",
    isTurnedAway: "Rechazado",
    toolOff: "Herramienta apagada",
    toolStillInUse: "Herramienta aún en uso",
    you: "usted",
    someone: "alguien",
    seenBy: (who) => `visto por ${name(who)}`,
    clearsByItself: (who) => `visto por ${name(who)}: desaparece sola`,
    seenCount: (count) => format.count(count, { one: "alerta vista", other: "alertas vistas" }),
    more: (count) => `y ${count} más: vea Sala`,
    moreOf: (count, which) => `y ${count} más: ${which === "" ? "" : `${which}, `}vea Sala`,
    moreUrgent: (count, which, seen) =>
      `y ${count} ${count === 1 ? "urgente" : "urgentes"} más${which === "" ? "" : `: ${which}`}${seen === 0 ? "" : `; ${seen} ${seen === 1 ? "vista" : "vistas"}`}`,
    showFewer: "Mostrar menos",
    means: {
      title: "Alertas en este teléfono",
      soundOn: "El sonido está activo: esta página ya se puede oír.",
      noSound: "Aún sin sonido: toque en cualquier parte para que este teléfono suene.",
      noVibration: "Este navegador no puede vibrar: solo avisa con sonido. Deje el volumen alto.",
      goesDark: {
        "no-lock":
          "Este navegador no puede mantener la pantalla encendida: haga que el teléfono se bloquee más tarde, o tóquelo de vez en cuando durante el calor.",
        "plain-connection":
          "Con esta conexión simple la página no puede mantener la pantalla encendida: haga que el teléfono se bloquee más tarde, o pida la dirección https de la cocina.",
      },
      locked:
        "Bloqueado o con otra aplicación delante no puede avisar: lo harán la pantalla mural y otros teléfonos.",
      volume: "Desde aquí no se ve si está en silencio o con poco volumen: revíselo.",
      tryIt: "Probar el sonido",
    },
    refused: {
      aTap: "Un toque",
      notTaken: (subject, at) =>
        at === undefined ? `${subject}: no se aceptó` : `${subject} · el toque de ${at} no se aceptó`,
      anyway: "Hacerlo de todos modos",
      understood: "Entendido",
      done: "Hecho",
    },
  };
};
