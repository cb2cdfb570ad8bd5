import type { DeviceKind } from "#shared/kitchen/model/vocabulary.ts";
import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";

const KINDS: Readonly<Record<DeviceKind, string>> = {
  phone: "Teléfono",
  wall: "Pantalla",
  bench: "Pantalla de mesa",
  sensor: "Sensor",
};

export const devices = (format: Formats): Words["devices"] => ({
  explained: "Cada uno tiene su propia llave. Olvide el que se perdió o se regaló: podrá entrar de nuevo.",
  line: (kind, owner) => (owner === undefined ? KINDS[kind] : `${KINDS[kind]} · ${format.name(owner)}`),
  thisOne: "este",
  waits: "espera permiso para entrar",
  seen: (when) => `visto ${when}`,
  here: "aquí ahora",
  forget: "Olvidar",
  forgetOf: (line) => `Olvidar: ${line}`,
  sure: "¿Olvidarlo? Ya no mostrará ni enviará nada.",
  forgotten: "Olvidado",
  done: {
    explained:
      "Todo lo que hizo cada persona, lo último primero. No salen las alertas ni lo que leen los sensores.",
    whose: "De quién",
    everyone: "De todos",
    on: (device) => `en ${device}`,
    earlier: "Anteriores",
    nothing: "Todavía nada.",
    working: "Buscando…",
  },
});
