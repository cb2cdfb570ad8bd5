import { unreachable } from "#shared/outcome.ts";
import type { KitchenFault } from "#shared/words/en/server/verify.ts";
import type { Formats } from "#shared/words/formats.ts";
import { fileSize } from "#shared/words/sizes.ts";
import type { Words } from "#shared/words/words.ts";

const UTC = (ms: number): string => `${new Date(ms).toISOString().slice(0, 19).replace("T", " ")} UTC`;

export const verify = (format: Formats): Words["server"]["verify"] => {
  const events = (fromSeq: number, toSeq: number): string =>
    fromSeq === toSeq ? `el evento ${fromSeq}` : `los eventos ${fromSeq} a ${toSeq}`;
  return {
    usage: `Revisa la base de datos de una cocina o una copia de seguridad, sin cambiar nada en ella.

  npm run verify                             la carpeta de datos
  npm run verify -- CARPETA                  otra carpeta
  npm run verify -- ARCHIVO                  una copia de seguridad
  npm run verify -- ARCHIVO --salvage NUEVA  pasa lo legible a la carpeta de datos nueva NUEVA
`,
    size: (bytes) => fileSize(format, bytes),
    held: (held) => [
      ["Cocina", held.name ?? "aún sin preparar"],
      ["Eventos", format.number(held.events)],
      ["Bandejas", `${format.number(held.trays)} en el tablero`],
      ["Último evento", held.latestMs === undefined ? "ninguno" : UTC(held.latestMs)],
      ["Respuestas", format.number(held.answers)],
      ["Dispositivos", format.number(held.devices)],
      ["Fotos", format.number(held.photos)],
    ],
    sizeLabel: "Tamaño",
    hashLabel: "Huella SHA-256",
    logHash: "Hash del registro",
    fault: (fault: KitchenFault, file: string): string => {
      switch (fault.code) {
        case "no-file":
          return `No existe el archivo ${file}.`;
        case "empty-file":
          return `${file} está vacío.`;
        case "no-database":
          return `${file} no es una base de datos: no es una cocina ni una copia de seguridad.`;
        case "truncated":
          return `${file} está cortado: tiene ${fileSize(format, fault.bytes)} de ${fileSize(format, fault.wholeBytes)}.`;
        case "newer":
          return `${file} lo creó un Traytide más nuevo (tablas ${fault.tables}; este conoce hasta ${fault.known}): use esa versión.`;
        case "no-kitchen":
          return `${file} es una base de datos, pero no contiene ninguna cocina.`;
        case "damaged-pages":
          return `${file} está dañado: ${fault.detail.slice(0, 3).join("; ")}.`;
        case "gap":
          return `En ${file} falta: ${events(fault.afterSeq + 1, fault.nextSeq - 1)}.`;
        case "altered":
          return `El evento ${fault.seq} de ${file} no es lo que se escribió: su hash no coincide.`;
        case "damaged-snapshot":
          return `El estado guardado en el evento ${fault.seq} de ${file} está dañado; el servidor lo rehace a partir de los eventos.`;
        case "cut-short":
          return `El registro de ${file} termina en el evento ${fault.seq}, aunque se guardaron ${fault.knownSeq}.`;
        default:
          return unreachable(fault);
      }
    },
    unreadable: (seq, reason) => `Esta versión pasa por alto el evento ${seq}: ${reason}`,
    more: (count) => `… y ${format.number(count)} más.`,
    whole: (file) =>
      `${file} está íntegro: sus páginas, su secuencia, sus hashes y cada evento que esta versión conoce.`,
    trySalvage: (file) =>
      `Para pasar lo legible a una carpeta de datos nueva: npm run verify -- ${file} --salvage CARPETA_NUEVA`,
    notNew: (folder) => `${folder} ya contiene algo: indique una carpeta vacía o que aún no exista.`,
    nothingReadable: (file) => `No se pudo leer ningún evento de ${file}, así que no se creó nada.`,
    salvaged: (folder, facts) => [
      `Se creó ${folder}: ${format.number(facts.events)} de ${format.number(facts.lastSeq)} eventos, ${format.number(facts.answers)} respuestas, ${format.number(facts.devices)} dispositivos, ${format.number(facts.photos)} fotos.`,
      "Sus eventos se numeran de nuevo desde 1, con hashes y época propios: las pantallas vuelven a cargar todo el tablero.",
      ...(facts.answersLeft === 0
        ? []
        : [
            `${format.number(facts.answersLeft)} respuestas quedaron fuera porque faltan sus eventos: un toque de esos que se envíe otra vez cuenta de nuevo.`,
          ]),
    ],
    leftOut: (fromSeq, toSeq, why) =>
      `Quedó fuera: ${events(fromSeq, toSeq)}, ${why === "damaged" ? "en páginas dañadas" : "no es lo que se escribió, según el hash"}.`,
    lacks: {
      "lead-code": "No se pudo leer el código de responsable: se muestra uno nuevo al arrancar.",
      "join-code": "No se pudo leer el código de acceso: se crea uno nuevo al arrancar.",
      devices: "No se pudo leer ningún dispositivo: cada teléfono y pantalla debe entrar de nuevo.",
    },
    startIt: (folder) => `Para arrancarla: TRAYTIDE_DATA=${folder} npm start`,
  };
};
