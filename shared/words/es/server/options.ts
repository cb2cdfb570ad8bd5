import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";

export const options = (_format: Formats): Words["server"]["options"] => ({
  unknown: (option) => `No existe la opción ${option}.`,
  malformed: (option) => `La opción ${option} no se escribe así.`,
  unexpected: (text) => `«${text}» no es una opción: todas empiezan por --.`,
  tooMany: (text) => `«${text}» es más de lo que admite esta orden.`,
  number: ({ name, min, max, isWhole, given }) =>
    `${name} debe ser un número ${isWhole ? "entero " : ""}de ${min} a ${max}: es «${given}».`,
  practiceOnly: (option) =>
    `${option} solo vale para la cocina de práctica: npm start -- --practice --speed 60.`,
  proxies:
    "TRAYTIDE_PROXIES debe contener direcciones o redes de proxies inversos, separadas por comas: 192.168.1.5 o 10.0.0.0/8.",
  name: (option, given) =>
    `${option} debe tener de 1 a 63 letras de la a a la z, cifras o guiones, sin guion al principio ni al final, o ser «off»: es «${given}».`,
  joinCode: "TRAYTIDE_JOIN_CODE debe tener de 4 a 20 letras, cifras, espacios o guiones.",
  passwordAlone: "TRAYTIDE_MQTT_PASSWORD necesita también TRAYTIDE_MQTT_USERNAME.",
  portTaken: (port) =>
    `El puerto ${port} ya está en uso, quizá por otro Traytide. Elija otro: PORT=${port + 1} npm start`,
  portForbidden: (port) => `Esta cuenta no puede usar el puerto ${port}: elija uno mayor que 1023.`,
});
