import type { BackupReason } from "#shared/kitchen/model/backup.ts";
import type { Formats, Plural } from "#shared/words/formats.ts";
import { fileSize } from "#shared/words/sizes.ts";
import type { Words } from "#shared/words/words.ts";

const EVENTS: Plural = { one: "evento", other: "eventos" };
const TRAYS: Plural = { one: "bandeja", other: "bandejas" };

const REASONS: Readonly<Record<BackupReason, string>> = {
  nightly: "hecha de noche",
  upgrade: "hecha antes de una actualización",
  "by-hand": "hecha a mano",
};

export const backups = (format: Formats): Words["backups"] => {
  const size = (bytes: number): string => fileSize(format, bytes);
  return {
    explained:
      "Una copia es un solo archivo con todo: bandejas, pedidos, diseños con sus fotos, personas e historial.",
    lastTitle: "Última copia buena",
    none: "Ninguna todavía",
    age: (min) => (min < 1 ? "Ahora mismo" : `Hace ${format.span(min)}`),
    made: (when, reason) => `${when}, ${REASONS[reason]}`,
    sizeOf: (bytes, held) =>
      held === undefined
        ? size(bytes)
        : `${size(bytes)}: ${format.count(held.events, EVENTS)}, ${format.count(held.trays, TRAYS)} en el tablero`,
    labels: { made: "Hecha", size: "Tamaño", file: "Archivo", folder: "Carpeta", kept: "Guardadas" },
    kept: (count, depth) =>
      `${format.number(count)}; de cada clase quedan las ${format.number(depth)} más nuevas`,
    next: (when) => `La próxima se hace sola: ${when}.`,
    take: "Hacer una copia ahora",
    progress: ({ stage, part }) =>
      `${stage === "copying" ? "Copiando" : "Revisando la copia"}: ${format.percent(Math.floor(part * 100))}`,
    done: "La copia se hizo y se revisó.",
    onDataDisk:
      "Están en el mismo disco que la cocina y se pierden con él. Indique una carpeta de otro disco donde está el servidor: TRAYTIDE_BACKUPS.",
    putBack: "Para devolver una a su sitio, detenga el servidor y ejecute ahí: npm run restore -- ARCHIVO",
    asking: "Preguntando al servidor…",
  };
};
