import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";

export const banner = (format: Formats): Words["server"]["banner"] => ({
  running: "Traytide está en marcha.",
  practice: (speed) =>
    `Traytide está en marcha con una cocina de práctica: datos inventados, reloj ${format.number(speed)} veces más rápido.`,
  rehearsing: "Simulando el último día de la cocina de práctica…",
  labels: {
    wall: "Pantalla",
    phones: "Teléfonos",
    start: "Inicio",
    also: "También en",
    name: "Por nombre",
    joinCode: "Código de acceso",
    leadCode: "Código de responsable",
    data: "Datos",
    trust: "Certificado",
  },
  leadCode: (code) =>
    `${code}   (anótelo, solo se muestra ahora: escrito en lugar del código de acceso, da permisos de responsable a otro teléfono)`,
  leadCodeShown: "se mostró al crearlo; para uno nuevo: npm start -- --new-lead-code",
  nameTaken: (host, by) =>
    `Otro equipo, ${by}, responde a ${host}: dos cocinas no pueden tener el mismo nombre. Esta sigue sin él y sus direcciones funcionan; ` +
    "iníciela con otro (npm start -- --name obrador) o apague antes el otro equipo.",
  nameNotPublished: (host) =>
    `Esta red no deja que el servidor responda a ${host}: ábralo por su dirección (con --name off no se intenta).`,
  trust: (main) => [
    `Para confiar en el certificado de esta cocina, abra ${main}/ca.crt en cada teléfono e instálelo:`,
    "iPhone: Ajustes > Perfil descargado > Instalar, y luego General > Información > Ajustes de confianza de los certificados.",
    "Android: Ajustes > Seguridad > Más > Instalar un certificado > Certificado de CA.",
    "Computadora: impórtelo como autoridad de certificación en el navegador o en el llavero del sistema.",
  ],
  scan: "Apunte aquí la cámara de un teléfono para entrar:",
});
