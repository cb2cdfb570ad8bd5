import type { Role } from "#shared/kitchen/model/vocabulary.ts";
import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";

const ROLES: Readonly<Record<Role, string>> = {
  lead: "un responsable",
  decorator: "un decorador",
  wall: "una pantalla",
  sensor: "un sensor",
};
const KINDS = { person: "una persona", wall: "una pantalla", sensor: "un sensor" } as const;

export const http = (format: Formats): Words["server"]["http"] => ({
  notJoined: "Este dispositivo no ha entrado: POST /api/join le da un token para enviar como Bearer.",
  notAllowed: (role, allowed) =>
    `${format.sentence(ROLES[role])} no puede hacer eso: hace falta ${format.or(allowed.map((one) => ROLES[one]))}.`,
  wrongCode: "Ese no es el código de acceso de la cocina: está en la pantalla del servidor.",
  nameTaken: (name, kind) =>
    `name ya está en uso: ${format.name(name)} es ${KINDS[kind]} aquí. Elija otro nombre.`,
  foreignHost:
    "Este servidor no se llama así. Use una de las direcciones que mostró, o añada el nombre a TRAYTIDE_HOSTS.",
  foreignOrigin: "Solo las páginas de este servidor pueden pedirle algo.",
  noSuchPath: (method, path) => `No existe ${method} ${path}.`,
  noSuchDevice: (deviceId) =>
    `deviceId debe ser el de un dispositivo que haya entrado: no existe ${deviceId}.`,
  noDesign: (designId) => `designId debe nombrar un diseño de la cocina: no hay ninguno ${designId}.`,
  notJpeg: "body debe ser un archivo JPEG.",
  tooLarge: (kB) => `El contenido es demasiado grande: debe tener como máximo ${format.number(kB)} kB.`,
  notJson: (detail) => `El contenido no es JSON: ${detail}.`,
  unreadable: (detail) => `La petición no se puede leer: ${detail}.`,
  backupRunning: "Ya se está haciendo una copia de seguridad: espere a que termine.",
  noBackups: {
    practice: "Una cocina de práctica se desecha, así que no se hacen copias de ella.",
    elsewhere: "Esta cocina se guarda en PostgreSQL, que tiene sus propias copias de seguridad.",
  },
  failed: "Algo falló en el servidor. No se cambió nada.",
  cannotRead: "Ahora no se pudo comprobar quién pregunta. Pregunte de nuevo en un momento.",
  notSaved: "No se pudo escribir el registro, así que no se cambió nada. Envíelo de nuevo.",
  closing: "El servidor se está cerrando. Envíelo de nuevo cuando vuelva.",
  waits: "Este dispositivo espera permiso para entrar: se pregunta a un responsable en su teléfono.",
  tooMany: {
    requests: "Demasiadas peticiones desde esta dirección: espere un minuto.",
    forecasts: "Demasiados pronósticos desde esta dirección: espere un minuto.",
    advice: "Demasiadas preguntas desde esta dirección: espere un minuto.",
    "join-codes": "Demasiados códigos de acceso incorrectos desde esta dirección: espere un minuto.",
    "kitchen-join-codes":
      "Se han probado demasiados códigos de acceso incorrectos en esta cocina: espere un minuto.",
    backups: "Demasiadas copias de seguridad desde esta dirección: espere un minuto.",
  },
  nothingHere: "Aquí no hay nada. La página de inicio está en /",
});
