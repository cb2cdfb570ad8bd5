import type { DeviceKind } from "#shared/kitchen/model/vocabulary.ts";
import type { DoneWords, EventNames } from "#shared/words/en/server/done.ts";
import { terms as makeTerms } from "#shared/words/es/terms.ts";
import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";

const DEVICES: Record<DeviceKind, string> = {
  phone: "teléfono",
  wall: "pantalla",
  bench: "pantalla de mesa",
  sensor: "sensor",
};

export const done = (format: Formats): Words["server"]["done"] => {
  const { name } = format;
  const { toolKinds, roles } = makeTerms(format);
  const tray = ({ tray }: EventNames): string =>
    tray === undefined ? "Una bandeja archivada" : `Bandeja ${tray}`;
  const of = ({ subject }: EventNames, otherwise: string): string =>
    subject === undefined ? otherwise : name(subject);
  const act = (names: EventNames): string => `${tray(names)}: ${names.act ?? "se hizo algo"}`;
  const what: DoneWords = {
    "tray-assigned": act,
    "flooding-started": act,
    flooded: act,
    "touch-tested": act,
    "tray-moved": act,
    "heat-set-started": act,
    "cookie-set": act,
    "cookie-heat-started": act,
    "heat-set-ended": act,
    "problem-reported": act,
    packed: act,
    "act-taken-back": (names) => `${tray(names)}: se deshizo una acción`,
    "settings-changed": () => "Se cambiaron los ajustes de la cocina",
    "person-added": (names) => `${of(names, "Alguien")} entró`,
    "role-changed": (names, { role }) => `${of(names, "Alguien")} pasó a ser ${roles[role]}`,
    "hours-set": (names) => `${of(names, "Alguien")}: se fijó su horario`,
    "person-removed": (names) => `Se quitó a ${of(names, "alguien")}`,
    "device-joined": (names, { as, isWaiting }) =>
      `${of(names, "Alguien")}: ${DEVICES[as]} ${isWaiting ? "que pidió entrar" : "que entró"}`,
    "device-let-in": (names) => `${of(names, "Alguien")}: se dejó entrar un dispositivo`,
    "device-forgotten": (names) => `${of(names, "Alguien")}: se rechazó u olvidó un dispositivo`,
    "place-put": (names) => `Se guardó el lugar ${of(names, "")}`,
    "place-removed": () => "Se quitó un lugar",
    "tool-put": (names) => `Se guardó ${of(names, "una herramienta")}`,
    "tool-removed": () => "Se quitó una herramienta",
    "icing-put": (names) => `Se guardó el glaseado ${of(names, "")}`,
    "icing-removed": () => "Se quitó un glaseado",
    "design-put": (names) => `Se guardó el diseño ${of(names, "")}`,
    "design-revised": (names) =>
      `Se cambió el diseño ${of(names, "")}; las bandejas en curso lo conservan como era`,
    "design-removed": () => "Se quitó un diseño",
    "recipe-put": (names) => `Se guardó la receta ${of(names, "")}`,
    "recipe-removed": () => "Se quitó una receta",
    "order-put": (names) => `Se guardó el pedido ${of(names, "")}`,
    "order-cancelled": () => "Se canceló un pedido",
    "cookies-given": (names, { count }) =>
      `${count} galletas empacadas pasaron de ${of(names, "un pedido")} a ${name(names.to ?? "otro")}`,
    "tray-added": (_names, { plan }) => `Se añadió la bandeja ${plan.number}`,
    "tray-removed": (names) => `${tray(names)}: se quitó`,
    "tool-switched-on": (names) => `${of(names, "Una herramienta")}: encendida`,
    "tool-kept-on": (names) => `${of(names, "Una herramienta")}: sigue en uso`,
    "tool-switched-off": (names) => `${of(names, "Una herramienta")}: apagada`,
    "tool-handed-over": (names) =>
      `${of(names, "Una herramienta")}: entregada a ${name(names.to ?? "alguien")}`,
    "tool-withdrawn": (names, { reason }) =>
      `${of(names, "Una herramienta")}: fuera de servicio, ${name(reason)}`,
    "tool-restored": (names) => `${of(names, "Una herramienta")}: de nuevo en servicio`,
    "tool-temperature-read": (names, { tempC }) =>
      `${of(names, "Una herramienta")}: se leyeron ${format.temp(tempC)}`,
    "reading-taken": (names, { reading }) =>
      `${of(names, "Un lugar")}: aire a ${format.temp(reading.tempC)} y ${format.percent(reading.rhPct)}`,
    "batch-mixed": (names) => `Se mezcló una tanda de ${of(names, "glaseado")}`,
    "batch-finished": (names) => `Se acabó una tanda de ${of(names, "glaseado")}`,
    "batch-judged": (names, { wrong }) =>
      wrong === null
        ? `Se dijo que una tanda de ${of(names, "glaseado")} estaba bien`
        : `Se dijo que una tanda de ${of(names, "glaseado")} estaba mal: ${name(wrong)}`,
    "batches-put-away": () => "Se archivaron tandas viejas",
    "note-left": (_names, { text }) => (text === null ? "La nota quedó atendida" : `Nota: ${name(text)}`),
    "caution-read": (_names, { toolKind }) => `Precauciones leídas: ${toolKinds[toolKind]}`,
    "alert-raised": () => "Surgió una alerta",
    "alert-changed": () => "Cambió una alerta",
    "alert-acknowledged": () => "Se vio una alerta",
    "alert-put-off": () => "Se aplazó una alerta",
    "alert-cleared": () => "Terminó una alerta",
    "trays-put-away": () => "Se archivaron bandejas empacadas",
  };
  return {
    what,
    other: "Se cambió otra cosa",
    kitchen: "la propia cocina",
    somebody: "alguien",
    device: (kind, owner) => (owner === undefined ? DEVICES[kind] : `${DEVICES[kind]} de ${name(owner)}`),
  };
};
