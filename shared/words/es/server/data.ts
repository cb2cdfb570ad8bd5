import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";

export const data = (format: Formats): Words["server"]["data"] => ({
  inUse: (folder) =>
    `Otro servidor de Traytide tiene abierta la carpeta de datos ${folder}. Deténgalo primero, o dé a este una carpeta propia con TRAYTIDE_DATA.`,
  diskFull: (folder) =>
    `El disco de la carpeta de datos ${folder} está lleno. Libere espacio y arranque de nuevo: no se cambió nada en la carpeta.`,
  readOnly: (folder) =>
    `No se puede escribir en la carpeta de datos ${folder}. Dé permiso de escritura a la cuenta que ejecuta Traytide, o elija otra carpeta con TRAYTIDE_DATA.`,
  emptied: (folder, events) =>
    `El registro en ${folder} está vacío, aunque tenía ${format.number(events)} eventos. Devuelva una copia de la carpeta de datos. Si prefiere empezar una cocina vacía, borre high-water.json de ahí.`,
  damaged: (detail) =>
    `El archivo kitchen.db de la carpeta de datos está dañado en el disco, así que no se abrió ni se cambió nada. Devuelva una copia (${detail}).`,
  cannotOpen: (file, reason) => `No se puede abrir el registro ${file}: ${reason}`,
  newer: (tables, known) => `lo creó un Traytide más nuevo (tablas ${tables}; este conoce hasta ${known})`,
  openToOthers: (folder) =>
    `La carpeta de datos ${folder} está abierta a otras cuentas y no es solo de la cocina: dele una carpeta propia.`,
  cannotClose: (path, reason) => `Otras cuentas pueden leer ${path}, y no se puede cambiar: ${reason}`,
});
