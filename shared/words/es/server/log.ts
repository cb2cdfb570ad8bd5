import type { AlertGroup } from "#shared/kitchen/model/alert-kinds.ts";
import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";

const GROUPS: Readonly<Record<AlertGroup, string>> = {
  heat: "calor",
  tools: "herramientas",
  films: "capas",
  icing: "glaseado",
  orders: "pedidos",
  air: "aire",
  people: "personas",
};

export const log = (format: Formats): Words["server"]["log"] => ({
  cannotWrite: "No se puede escribir el registro: nada queda confirmado hasta que se pueda.",
  canWrite: "Ya se puede escribir el registro de nuevo.",
  cannotRead: "No se pudo leer el registro.",
  eventSetAside: (seq, type, reason) =>
    `El evento ${seq} (${type}) no se puede leer y se deja aparte: ${reason}`,
  snapshotNotSaved: "No se pudo guardar una instantánea; los eventos están a salvo sin ella.",
  snapshotsUnreadable: (reason) =>
    `Las instantáneas no se pueden leer (${reason}): se saltan, pero no los eventos.`,
  snapshotDamaged: (seq) => `La instantánea del evento ${seq} está dañada: se salta, pero no los eventos.`,
  highWaterNotWritten: "No se pudo escribir high-water.json; el registro está a salvo sin él.",
  backupFailed: (why, folder) =>
    `La copia de seguridad en ${folder} falló (${why}); se intenta de nuevo cada diez minutos.`,
  backupsNotSeen: "No se pudo mirar la carpeta de copias de seguridad.",
  rulesFailed: (group) => `No se pueden revisar las alertas del grupo «${GROUPS[group]}».`,
  decisionFailed: (command) => `Falló la decisión sobre ${command}.`,
  listenerFailed: "Falló un receptor de cambios.",
  forecastFailed: "Falló un pronóstico.",
  forecastThreadDied: "Falló el hilo que calcula los pronósticos; otro nuevo toma su lugar.",
  planThreadDied: "Falló el hilo que calcula el plan del día; otro nuevo toma su lugar.",
  connectionFailed: "Falló una conexión.",
  messageFailed: "Falló un mensaje de una pantalla.",
  requestFailed: (method, path) => `Falló ${method} ${path}.`,
  photoNotRemoved: "No se pudo quitar la foto de un diseño borrado.",
  deviceNotForgotten: "No se pudo olvidar el dispositivo de una persona que salió.",
  clockJumped: (s) =>
    `El reloj de este equipo se adelantó ${format.number(s)} s: la hora de la cocina lo sigue.`,
  clockBehind: (s) =>
    `El reloj de este equipo está ${format.number(s)} s por detrás de la hora de la cocina, que nunca retrocede. Póngalo en hora.`,
  practiceFault: "Las personas de la cocina de práctica encontraron un fallo.",
  practicePaused: "La cocina de práctica se detiene un momento.",
});
