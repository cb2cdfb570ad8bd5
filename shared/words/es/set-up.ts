import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";

export const setUp = (_format: Formats): Words["setUp"] => ({
  steps: {
    label: "Pasos",
    names: ["Cocina", "Lugares", "Equipos de calor", "Glaseados", "Primer diseño"],
    notes: [
      "Dónde están las bandejas y qué aire tienen: de eso depende cuánto tardan en secar.",
      "Lo que fija el glaseado con calor. Déjelo vacío si no usa nada.",
      "Sus colores. El agua de cada consistencia es la de la cocina, salvo que un glaseado sea distinto.",
      "Un diseño para empezar: sus capas en el orden en que se ponen.",
    ],
    next: (name) => `Siguiente: ${name}`,
    done: "Listo: añadir el primer pedido",
    back: "Atrás",
  },
  usualRoom: {
    start: "Empezar con una sala habitual",
    has: "dos estantes, uno con ventilador, una mesa, un horno bajo, un equipo de aire caliente, tres glaseados y un diseño: cambie lo que sea distinto",
    done: "La sala habitual está lista",
  },
});
