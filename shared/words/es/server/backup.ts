import { unreachable } from "#shared/outcome.ts";
import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";

export const backup = (_format: Formats): Words["server"]["backup"] => ({
  usage: `Hace una copia de seguridad de la cocina, con el servidor en marcha o sin él.

  npm run backup                 en la carpeta de copias: TRAYTIDE_BACKUPS, o backups en la carpeta de datos
  npm run backup -- CARPETA      en otra carpeta, que debe existir
`,
  made: (file) => `Copia de seguridad hecha: ${file}`,
  beforeUpgrade: "Haciendo una copia de seguridad antes de la actualización…",
  noKitchen: (folder) => `En ${folder} no hay ninguna cocina que copiar.`,
  trouble: (why, folder, detail) => {
    switch (why) {
      case "folder-missing":
        return `No se encuentra la carpeta de copias ${folder}: conecte su disco o cree la carpeta.`;
      case "folder-lost-backups":
        return `En ${folder} no está ninguna de las copias anteriores: conecte su disco. Si las borró usted: npm run backup`;
      case "disk-full":
        return `El disco de la carpeta de copias ${folder} está lleno: libere espacio.`;
      case "read-only":
        return `No se puede escribir en la carpeta de copias ${folder}: dé permiso de escritura a la cuenta que ejecuta Traytide.`;
      case "damaged":
        return `No se hizo la copia, porque no salió íntegra. ${detail} Para ver más: npm run verify`;
      case "unknown":
        return `No se hizo la copia: ${detail}`;
      default:
        return unreachable(why);
    }
  },
});

export const restore = (_format: Formats): Words["server"]["restore"] => ({
  usage: `Devuelve una copia de seguridad a su sitio. El servidor debe estar detenido; lo que hay ahora se aparta.

  npm run restore -- ARCHIVO            en la carpeta de datos
  npm run restore -- ARCHIVO CARPETA    en otra carpeta
`,
  noBackup: (file) =>
    `${file} es la base de datos de una cocina, pero no una copia hecha por Traytide: npm run backup hace una. No se cambió nada.`,
  newer: (file) => `${file} lo creó un Traytide más nuevo: use esa versión. No se cambió nada.`,
  otherKitchen: (file, name, folder) =>
    `${file} es una copia de otra cocina${name === undefined ? "" : `, «${name}»`}, no de la que hay en ${folder}: indique una carpeta vacía para ella. No se cambió nada.`,
  unchanged: "No se cambió nada.",
  done: (folder) => `La copia es ahora la cocina de ${folder}. Arranque el servidor como siempre.`,
  replaced: (folder) => `Lo que había está en ${folder}; bórrelo cuando ya no lo necesite.`,
  codes:
    "El código de responsable y el de acceso son los del momento de la copia; los dispositivos que entraron después deben entrar de nuevo.",
});
