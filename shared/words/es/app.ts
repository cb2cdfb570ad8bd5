import { unreachable } from "#shared/outcome.ts";
import type { Formats, Plural } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";

const THIS = { phone: "este teléfono", screen: "esta pantalla" } as const;

const HAS_NAME = { person: "una persona", wall: "una pantalla de pared", sensor: "un higrómetro" } as const;
const TAPS: Plural = { one: "toque", other: "toques" };

export const app = (format: Formats): Words["app"] => ({
  language: "Idioma",
  theme: {
    label: "Aspecto",
    auto: "Como el teléfono",
    day: "Día",
    night: "Noche",
  },
  titles: {
    trays: "Bandejas",
    tray: (number) => `Bandeja ${number}`,
    "tray-heat": (number) => `Fijar con calor · bandeja ${number}`,
    heat: "Calor",
    plan: "Plan de hoy",
    orders: "Pedidos",
    "new-order": "Pedido nuevo",
    order: "El pedido",
    icing: "Glaseado por mezclar",
    "order-icing": "Glaseado por mezclar",
    batch: "Una tanda de glaseado",
    recipes: "Recetas",
    recipe: "La receta",
    "tray-label": (number) => `Etiqueta de la bandeja ${number}`,
    "order-labels": "Etiquetas del pedido",
    print: "Etiquetas y hojas",
    designs: "Diseños",
    design: "El diseño",
    "new-design": "Un diseño nuevo",
    icings: "Glaseados",
    colour: "El glaseado",
    room: "Sala",
    settings: "Ajustes",
    places: "Lugares",
    tools: "Equipos de calor",
    hygrometers: "Higrómetros",
    trust: "Cómo seca esta cocina",
    day: "Hoja del día",
    "hand-over": "Relevo de turno",
    devices: "Teléfonos y pantallas",
    backups: "Copias de seguridad",
    done: "Quién hizo qué",
    "set-up": "Preparar la cocina",
  },
  screens: "Pantallas",
  noSuchPage: "Esa página no existe",
  toTrays: "Ir a sus bandejas",
  forLeads: "Esta página es para los responsables de la cocina.",
  isBeingSetUp: "Un responsable está preparando la cocina. Esta página sigue sola.",
  looking: {
    connecting: "Buscando la cocina…",
    outdated: "La cocina se mostrará al recargar esta página.",
    lost: "La cocina no responde. Intentándolo de nuevo.",
  },
  status: {
    live: "en vivo",
    cannotSave: "el servidor no guarda",
    sending: (count) => `enviando ${format.count(count, TAPS)}`,
    connecting: "conectando…",
    lost: "sin conexión",
    refused: "fuera de la cocina",
    waiting: "esperando permiso",
    outdated: "recargue la página",
    practice: (speed) => (speed > 1 ? `práctica ×${format.number(speed)}` : "práctica"),
    noSound: "sin sonido: toque",
    since: (when) => `desde ${when}`,
  },
  cannotSave: {
    title: "El servidor no puede guardar",
    text: (waiting) =>
      waiting === 0
        ? "Lo que toque espera aquí y se envía en cuanto pueda. Las alarmas siguen."
        : `En espera: ${format.count(waiting, TAPS)}; se envían en cuanto pueda. Las alarmas siguen.`,
  },
  isOutdated: (waiting) =>
    waiting === 0
      ? "Lo que toque se guarda y se envía después. Se muestra lo último recibido."
      : `En espera: ${format.count(waiting, TAPS)}; se envían después. Se muestra lo último recibido.`,
  reload: "Recargar",
  undo: "Deshacer",
  takenBack: (count) => (count === 1 ? "Deshecho" : `${format.number(count)} deshechos`),
  later: {
    opening: "Abriendo…",
    notLoaded: "No se pudo cargar esta página del servidor. Recárguela.",
    notLoadedYet:
      "Esta página aún no se había cargado al perderse la conexión. Se abrirá cuando la cocina responda.",
  },
  replaced: {
    title: "La cocina volvió a una copia anterior",
    text: "Lo hecho después de esa copia no está en el tablero. Revise sus bandejas.",
  },
  understood: "Entendido",
  lost: {
    title: (when) => `Sin conexión desde ${when}`,
    text: (waiting) =>
      waiting === 0
        ? "Lo que toque se guarda y se envía al volver la conexión. No se ven los toques de otros."
        : `En espera: ${format.count(waiting, TAPS)} por enviar, cada uno una vez.`,
    keepsNothing: "Este teléfono no guarda nada al recargar: deje esta página abierta.",
  },
  join: {
    title: "Entrar en la cocina",
    name: "Su nombre",
    code: "Código de acceso",
    codeHint: "Está en la pantalla del servidor. Al escanear el código de allí se rellena solo.",
    noCode: "Falta el código de acceso: está en la pantalla del servidor.",
    noName: "Falta su nombre: así los demás ven quién hace qué.",
    join: "Entrar",
    joining: "Entrando…",
    tapHint: "este primer toque también permite que suenen las alertas",
  },
  waiting: {
    title: "Esperando permiso para entrar",
    text: (who, screen) =>
      `${format.name(who)} ya está en esta cocina. Se pregunta a un responsable, en su teléfono, si ${THIS[screen]} también es suyo o suya.`,
    leadCode:
      "¿No hay ningún responsable cerca? Entre de nuevo con el código de responsable, que el servidor mostró la primera vez que se inició.",
  },
  joinAgain: "Entrar de nuevo",
  tryAgain: "Reintentar",
  notKnown: { phone: "Este teléfono no está en la cocina", screen: "La cocina ya no conoce esta pantalla" },
  outdated: "Esta página y el servidor son de versiones distintas: recárguela.",
  joinFault: (fault, screen) => {
    switch (fault.code) {
      case "not-known":
        return `El servidor ya no conoce ${THIS[screen]}.`;
      case "no-answer":
        return `El servidor de la cocina no responde. ¿Está ${THIS[screen]} en la red de la cocina?`;
      case "wrong-code":
        return "Ese no es el código de acceso de la cocina: está en la pantalla del servidor.";
      case "too-many":
        return "Demasiados intentos. Espere un minuto y vuelva a intentarlo.";
      case "name-taken":
        return `${format.name(fault.name)} ya es ${HAS_NAME[fault.of]} aquí: elija otro nombre.`;
      case "refused":
        return fault.message;
      case "failed":
        return `El servidor no pudo dejar entrar a ${THIS[screen]} (respuesta ${fault.status}). Vuelva a intentarlo.`;
      default:
        return unreachable(fault);
    }
  },
});
