import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";
import { drying } from "./drying.ts";

const PHONES = { one: "teléfono", other: "teléfonos" };

export const wall = (format: Formats): Words["wall"] => {
  const trays = (count: number): string => format.count(count, { one: "bandeja", other: "bandejas" });
  const { name } = format;
  const ready = (count: number): string => (count === 1 ? "lista" : "listas");
  return {
    more: (count) => `y ${count} más`,
    lanes: {
      flooding: { name: "Relleno", hint: "pinchar en húmedo" },
      "heat-set": { name: "Calor", hint: "tiempo al calor" },
      crusting: { name: "Costra", hint: "espera otra capa" },
      "full-dry": { name: "Secado", hint: "luego detalle o empaque" },
    },
    coming: "En camino",
    comingLegend: "barra: margen; línea: lo probable",
    comingStale: "último dato, tiempos no actuales",
    closedHours: "rayado: cerrado",
    flag: (order, time) => `${name(order)} ${time}`,
    now: "ya",
    tomorrow: "mañana",
    inMinutes: (minutes) => (minutes < 60 ? `${minutes} m` : `${minutes / 60} h`),
    pill: {
      hot: "caliente",
      later: "más tarde",
      sooner: "más pronto",
      stop: "parar",
      unknown: "sin pronóstico",
      never: "aquí no secará",
    },
    ready: {
      title: "Listas para seguir",
      byPlan: "según el plan del día",
      staleTitle: "Estaban listas",
      stale: "según lo último recibido",
      none: "Ahora ninguna necesita atención",
      toStart: "por empezar",
      more: (count, numbers) => `y ${count} más${numbers === "" ? "" : `: ${numbers}`}`,
      moreToStart: (count, numbers) => `${count} por empezar${numbers === "" ? "" : `: ${numbers}`}`,
      hotUntil: (time) => `caliente hasta ${time} aprox.`,
      dryMitts: "guantes secos",
      next: (wait) => `siga: ${wait}`,
      waits: (span) => `espera ${span}`,
      waitsSince: "ahora",
    },
    alert: {
      asLastHeard: (time) => `según lo último recibido, empezó: ${time}`,
      seenBy: (who) => `${name(who)} lo vio`,
      open: "Abrir",
      openTray: (number) => `Bandeja ${number}: abrir`,
    },
    air: {
      none: "Aire sin medir",
      reading: (tempC, rhPct) => `${format.temp(tempC)} · ${format.percent(rhPct)} HR`,
      assumed: "supuesto: ningún higrómetro medido",
      stuck: "higrómetro fijo: tiempos más amplios",
      lastRead: (time) => `última medición: ${time}; tiempos más amplios`,
      never: (film, why) => `${film} no forma costra: ${drying(format).why(why)}`,
      skinsOnly: (film, skin, why) =>
        `${film}: costra en ${skin}, no seca del todo: ${drying(format).why(why)}`,
      dries: (film, skin, dry) => `${film}: costra en ${skin}, secado completo en ${dry}`,
      film: (thicknessMm, consistency) => `${format.sentence(consistency)} de ${format.length(thicknessMm)}`,
      changedSince: (change, time) => `${change} desde: ${time}`,
      moved: (later, sooner) => {
        if (later === 0) return `${trays(sooner)} ${ready(sooner)} más pronto que lo mostrado`;
        if (sooner === 0) return `${trays(later)} ${ready(later)} más tarde que lo mostrado`;
        return `${trays(later)} ${ready(later)} más tarde y ${sooner} más pronto que lo mostrado`;
      },
    },
    tools: {
      onSince: (tool, minutes, holder) => `${name(tool)}: encendido ${format.span(minutes)}, ${name(holder)}`,
      heldBy: (tool, holder) => `${name(tool)} (${name(holder)})`,
      hotUntil: (tool, time) => `${name(tool)}: caliente hasta cerca de ${time}`,
      hotTray: (number, time) => `${number} hasta cerca de ${time}`,
      hotTrays: (trays) => `Calientes, guantes secos: ${trays.join(", ")}`,
      hotTraysLast: (numbers, time) =>
        `Calientes, guantes secos: ${numbers}; la última hasta cerca de ${time}`,
      asLastHeard: (line) => `Según lo último recibido: ${line}`,
      unconfirmed: "Cerrado: sin confirmar que se apagó",
    },
    practice: (speed) => `cocina de práctica · ${speed}×`,
    top: {
      stale: (time) =>
        `${format.stop(`Sin noticias del servidor desde ${time}`)} Los tiempos no son actuales.`,
      notLive: "Los tiempos de abajo no son actuales.",
      cannotSave: "El servidor no puede guardar: los toques esperan en los teléfonos. Las alarmas siguen.",
      live: "en vivo",
      cannotSaveShort: "no guarda",
      reload: "recargar",
      reconnecting: "reconectando",
      phones: (count) => format.count(count, PHONES),
    },
    sheet: {
      which: "¿Qué bandeja?",
      howMany: "¿cuántas galletas?",
      notSet: "Parar: aún sin fijar",
      swollen: "Parar: hinchado o agrietado",
      anyway: (act) => `${act} de todos modos`,
      close: "Cerrar",
      done: (tray, act) => `Bandeja ${tray}: ${act}`,
      undo: "Deshacer",
      replaced: {
        title: "La cocina volvió a una copia anterior",
        text: "Lo que se hizo después no está en el tablero.",
      },
    },
    menu: {
      title: "Esta pantalla",
      soundOn: "con sonido",
      soundOff: "sin sonido: toque una vez",
      sound: "Sonido",
      notArmed:
        "No está listo: este navegador permite sonido solo tras un toque o una tecla en esta pantalla.",
      armed: "Listo. Lo urgente suena hasta que alguien responde en un teléfono.",
      loudness: "Volumen",
      tries: { urgent: "Probar urgente", prompt: "Probar aviso", note: "Probar nota" },
      theme: "Tema",
      themes: { auto: "según el horario", day: "día", night: "noche" },
      language: "Idioma",
      size: "Tamaño",
      goesDark:
        "Aquí este navegador no mantiene la pantalla encendida: desactive el reposo y el protector de pantalla en los ajustes del aparato.",
      leave: "Salir de esta cocina",
      sizeIs: (diagonalCm, farthestM) =>
        `Pensado para una pantalla de ${diagonalCm} cm y un lector a ${format.number(farthestM, 1)} m. Un responsable cambia ambos en un teléfono: Sala, Cocina.`,
      tooSmall: ({ farthestM, acrossM, nearM, needCm }) =>
        `Esta pantalla es pequeña para ${metres(farthestM)}: los números de bandeja, acciones y alarmas se leen desde ${metres(acrossM)}, lo demás desde ${metres(nearM)}. Haría falta una pantalla de unos ${needCm} cm.`,
    },
    join: {
      title: "Pantalla mural de Traytide",
      about:
        "Muestre aquí el tablero de esta cocina. El código de acceso está en la pantalla del servidor y en el teléfono de cualquier responsable, en Sala.",
      code: "Código de acceso",
      kind: "Esta pantalla es",
      wall: { name: "mural", does: "que muestra" },
      bench: {
        name: "de mesa",
        does: "que se puede tocar: una ficha abre la siguiente acción de la bandeja",
      },
      name: "Su nombre",
      usualNames: { wall: "Mural", bench: "Mesa" },
      busy: "Entrando…",
      show: "Mostrar el tablero",
      waiting: "Esperando al servidor de la cocina…",
      reloaded: "Ya se recargó una vez y no sirvió.",
      reload: "Recargar",
    },
    begin: {
      title: "Aún no hay nada en los estantes",
      setUpTitle: "Configure la cocina desde un teléfono",
      network: "Con un teléfono, entre en la red de esta cocina y abra",
      addressOnServer: "la dirección que muestra la pantalla del servidor",
      withCode: "Entre con el código",
      codeOnServer: "de la pantalla del servidor",
      firstLeads: "Quien entra primero es responsable: ingrese lugares, glaseados y diseños en Sala",
      leadsSetUp: "Un responsable ingresa lugares, glaseados y diseños en Sala",
      enterOrder: "Ingrese un pedido y sus bandejas en Pedidos. Aparecen aquí al instante.",
      practice: "Para probar antes con bandejas inventadas y un reloj rápido, inicie el servidor con",
    },
  };

  function metres(lengthM: number): string {
    return `${format.number(Math.floor(lengthM * 10) / 10, 1)} m`;
  }
};
