import { unreachable } from "#shared/outcome.ts";
import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";

const THIS = { phone: "este teléfono", screen: "esta pantalla" } as const;

export const app = (_format: Formats): Words["app"] => ({
  language: "Idioma",
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
      case "refused":
        return fault.message;
      case "failed":
        return `El servidor no pudo dejar entrar a ${THIS[screen]} (respuesta ${fault.status}). Vuelva a intentarlo.`;
      default:
        return unreachable(fault);
    }
  },
});
