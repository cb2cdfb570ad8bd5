import type { Help } from "#shared/kitchen/advice/advice.ts";
import type { HelpAct } from "#shared/kitchen/advice/choices.ts";
import type { TimeLeft } from "#shared/kitchen/orders/time-left.ts";
import { unreachable } from "#shared/outcome.ts";
import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";
import { orders } from "./orders.ts";
import { terms } from "./terms.ts";

export const advice = (format: Formats): Words["advice"] => {
  const { name, span, band, percent } = format;
  const { trays } = terms(format);
  const { timeLeft } = orders(format);
  const act = (help: HelpAct): string => {
    switch (help.kind) {
      case "move":
        return `Mover ${help.trayNumbers.length === 1 ? "la" : "las"} ${trays(help.trayNumbers)} a ${name(help.placeName)}`;
      case "heat-set":
        return `Fijar con calor cada capa húmeda: ${name(help.toolName)}`;
      case "drier air":
        return `Secar el aire de la sala del ${percent(help.fromPct)} al ${percent(help.toPct)}`;
      case "thinner":
        return `Poner las capas de relleno que faltan un ${percent(help.byPct)} más finas`;
      case "more hands":
        return `Una persona más, ${format.number(help.hands)} en total`;
      case "later closing":
        return `Cerrar a las ${format.time(help.atMs)} en vez de ${format.whenWithDay(help.closesMs, help.closesMs)}`;
      default:
        return unreachable(help);
    }
  };
  const gain = (won: Help["gain"]): string => {
    if (won === undefined) return "así llega a secarse";
    return won.leastMin < 0
      ? `hasta ${span(won.mostMin)} antes, en el peor caso ${span(-won.leastMin)} después`
      : `${band(won.leastMin, won.mostMin)} antes`;
  };
  const chance = ({ before, after }: NonNullable<Help["chance"]>): string =>
    `a tiempo en ${format.number(after * 10)} de cada 10 días así, ahora ${format.number(before * 10)}`;
  const pickUp = (left: TimeLeft): string => {
    switch (left.code) {
      case "spare":
        return `llega al retiro, ${timeLeft(left)}`;
      case "may-be-late":
        return `es probable que llegue al retiro, en el peor caso ${span(left.mostMin)} tarde`;
      case "late":
        return `aun así es probable que no llegue al retiro, ${timeLeft(left)}`;
      case "never":
      case "no-forecast":
        return "aun así no llega al retiro";
      default:
        return unreachable(left);
    }
  };
  return {
    title: "Qué ayudaría",
    act,
    gain,
    chance,
    pickUp,
    say: (help) =>
      [`${act(help)}: ${gain(help.gain)}`, pickUp(help.pickUp), help.chance && chance(help.chance)]
        .filter((part) => part !== undefined)
        .join(", "),
    move: "Mover…",
    toHeat: "Fijar con calor",
    working: "Calculando…",
    noConnection: "Esto lo calcula el servidor, y no hay conexión con él.",
    nothing:
      "Nada lo adelantaría: ni otro lugar con espacio, ni calor, ni aire más seco, ni una persona más, ni cerrar más tarde gana cinco minutos.",
    none: {
      "no-trays": "Aún no tiene bandejas.",
      packed: "Ya está empacado.",
      "no-forecast": "Aún no hay pronóstico: pregunte de nuevo en un momento.",
    },
    ask: {
      either: "Indique tray, el número de una bandeja, o bien order, el id de un pedido.",
      noOrder: (id) => `order debe ser el id de un pedido: no hay ${id}.`,
      noTray: (tray) => `tray debe ser el número de una bandeja: no hay ${tray}.`,
    },
  };
};
