import { unreachable } from "#shared/outcome.ts";
import type { LayerFact } from "#shared/kitchen/model/risk.ts";
import type { BeforeWhat, RefusalFact, Table, Thing, UnfitFact } from "#shared/kitchen/model/refusal.ts";
import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";
import { acts } from "./acts.ts";
import { drawings } from "./drawings.ts";
import { faults } from "./faults.ts";
import { terms } from "./terms.ts";

const NONE: Record<Exclude<Thing, "person">, string> = {
  tray: "ninguna bandeja",
  tool: "ninguna herramienta",
  place: "ningún lugar",
  icing: "ningún glaseado",
  recipe: "ninguna receta",
  design: "ningún diseño",
  order: "ningún pedido",
};
const ONE_OF: Record<Table, string> = {
  tool: "una de las herramientas",
  place: "uno de los lugares",
  icing: "uno de los glaseados",
  recipe: "una de las recetas",
  design: "uno de los diseños",
  order: "uno de los pedidos",
};
const MANY: Record<Table | "tray", string> = {
  tray: "bandejas a la vez",
  tool: "herramientas",
  place: "lugares",
  icing: "glaseados",
  recipe: "recetas",
  design: "diseños",
  order: "pedidos",
};
const CALLED: Record<Table, string> = {
  tool: "una herramienta llamada",
  place: "un lugar llamado",
  icing: "un glaseado llamado",
  recipe: "una receta llamada",
  design: "un diseño llamado",
  order: "un pedido llamado",
};
const CHAMBERS = { oven: "el horno", "warm-cabinet": "el armario tibio" } as const;
const SCREENS = { wall: "una pantalla", sensor: "un sensor", bench: "una pantalla de mesa" } as const;

export const refusals = (format: Formats): Words["refusals"] => {
  const { name, time, temp } = format;
  const { cookies, trayCount, trays, layer, placeKinds } = terms(format);
  const { must, say: sayBad } = faults(format);
  const { say: act, risk, question } = acts(format);
  const layerOf = (fact: LayerFact): string => layer(fact.layer, fact.icing);

  const unfit = (fact: UnfitFact): [matter: string, more: string] => {
    switch (fact.why) {
      case "out of service":
        return [`${name(fact.tool)} está fuera de servicio`, name(fact.note)];
      case "read too hot":
        return [
          `${name(fact.tool)} se midió a ${temp(fact.readC)}, por encima de su límite de ${temp(fact.maxC)}`,
          "déjela enfriar y anote otra vez su temperatura.",
        ];
      case "in use":
        return [`${name(fact.tool)} está ahora sobre la bandeja ${fact.tray}`, "una bandeja a la vez."];
      case "full":
        return [`${name(fact.place)} está lleno`, `caben ${trayCount(fact.capacity)}.`];
      case "gone":
        return ["Su herramienta ya no está aquí", ""];
      case "another kind":
        return [`${name(fact.tool)} es ahora otro tipo de herramienta`, ""];
      default:
        return unreachable(fact);
    }
  };

  const before = (what: BeforeWhat): string =>
    ({
      flooding: "de que empezara su relleno",
      laid: "de su última capa",
      drying: "de que empezara su reloj de secado",
      placed: "de que llegara a donde está",
      "heat-set": "del reloj de este fijado",
      "icing laid": "de que se aplicara el glaseado",
    })[what];

  const say = (fact: RefusalFact): string => {
    switch (fact.code) {
      case "said":
        return fact.text;
      case "no-such":
        return fact.thing === "person"
          ? `Aquí nadie tiene el id ${fact.id}.`
          : `No hay ${NONE[fact.thing]} con el id ${fact.id}.`;
      case "must-name":
        return `${fact.field} debe nombrar ${ONE_OF[fact.thing]} de la cocina.`;
      case "not-drawn":
        return `${fact.field} debe nombrar ${{ areas: "zonas", lines: "líneas" }[fact.of]} que tenga el dibujo del diseño: elíjalas de nuevo.`;
      case "must-name-chamber":
        return `${fact.field} debe nombrar ${CHAMBERS[fact.kind]} de la lista de lugares que es esta herramienta.`;
      case "must-name-place-not-oven":
        return `${fact.field} debe nombrar un lugar de esta cocina que no sea un horno.`;
      case "must-name-other-place":
        return `${fact.field} debe ser otro lugar de esta cocina.`;
      case "field":
        return `${fact.field} ${must(fact.must)}.`;
      case "bad-field":
        return sayBad(fact.bad);
      case "no-place-named":
        return `${fact.field} debe ser el id o el nombre de uno de los lugares de la cocina: no hay ${fact.named}.`;
      case "server-failed":
        return "El servidor falló en esto. No se cambió nada.";
      case "answer-unreadable":
        return "Esto ya se decidió antes, pero su respuesta no se puede leer.";
      case "not-saved":
        return "No se pudo guardar.";
      case "bad-drawing":
        return `${fact.field}: ${drawings(format).fault(fact.fault)}`;
      case "name-taken":
        return `Ya hay ${CALLED[fact.thing]} ${name(fact.name)}.`;
      case "table-full":
        return fact.thing === "batch"
          ? `Caben como máximo ${fact.most} mezclas de glaseado a la vez: indique cuáles se acabaron o se tiraron.`
          : fact.thing === "person"
            ? `En una cocina caben como máximo ${fact.most} personas: un responsable puede quitar algunas en Sala.`
            : `En una cocina caben como máximo ${fact.most} ${MANY[fact.thing]}.`;
      case "place-full":
        return `${name(fact.place)} está lleno: caben ${trayCount(fact.capacity)}.`;
      case "unfit":
        return unfit(fact.unfit).join(": ");
      case "kitchen-only":
        return "Eso solo lo hace el servidor de la cocina.";
      case "sensor-only-reads":
        return "Un sensor solo puede enviar lecturas.";
      case "wall-only-shows":
        return "La pantalla solo muestra. Únala como pantalla de mesa para tocarla.";
      case "leads-only":
        return "Solo un responsable puede cambiar eso. Pídaselo, o que le haga responsable en Sala.";
      case "give-is-leads":
        return "Solo un responsable da una bandeja a otra persona. Usted puede tomar una, o devolver la suya.";
      case "not-for-others":
        return "Solo la pantalla de una mesa actúa por otra persona de la cocina, y solo en bandejas.";
      case "removed":
        return "Le quitaron de esta cocina: vuelva a unirse.";
      case "needs-hands":
        return fact.what === "tool"
          ? "Una herramienta la enciende una persona."
          : "El fijado con calor lo empieza la persona que tiene la herramienta.";
      case "wrong-source":
        return `reading.source debe ser ${fact.source}: lo envía un ${fact.role}.`;
      case "no-hours":
        return `${name(fact.name)} es ${SCREENS[fact.is]}: solo una persona tiene horario.`;
      case "not-a-person":
        return `${name(fact.name)} es ${SCREENS[fact.is]}: solo una persona puede ser responsable o decorador.`;
      case "role-not-given":
        return "role debe ser lead o decorator: una pantalla o un sensor se une como lo que es.";
      case "only-lead":
        return `${name(fact.name)} es el único responsable: nombre antes a otro.`;
      case "person-name-taken":
        return `${name(fact.name)} ya está aquí: elija otro nombre.`;
      case "no-such-device":
        return `No existe el dispositivo ${fact.id}: fue rechazado u olvidado.`;
      case "too-many-wait":
        return `Esperan como mucho ${fact.most} dispositivos: un responsable debe dejarlos entrar o rechazarlos antes.`;
      case "device-is-in":
        return "Ese dispositivo ya puede entrar.";
      case "own-device":
        return "Este dispositivo no puede olvidarse a sí mismo: salga de la cocina desde él.";
      case "last-lead":
        return "No se puede quitar al último responsable: nombre antes a otro.";
      case "holds-tool":
        return `${name(fact.name)} tiene ${name(fact.tool)} encendida: que la entregue o diga que está apagada, y después quite a ${name(fact.name)}.`;
      case "heats-tray":
        return `La bandeja ${fact.tray} está bajo calor a cargo de ${name(fact.name)}: termine el fijado o entregue antes la herramienta.`;
      case "no-hands":
        return `${name(fact.name)} no tiene manos: entregue ${name(fact.tool)} a un responsable o a un decorador.`;
      case "not-yours":
        return `Solo ${name(fact.name ?? "quien lo hizo")} o un responsable puede deshacer eso.`;
      case "in-future":
        return "atMs está en el futuro: como máximo 5 s por delante del reloj de la cocina.";
      case "too-far-back":
        return "atMs está demasiado atrás: debe estar dentro de las últimas 12 horas.";
      case "id-used":
        return "commandId ya se usó para otro comando: debe ser uno que no haya tenido ningún otro comando ni dispositivo.";
      case "before":
        return fact.tray === undefined
          ? format.stop(`atMs es antes ${before(fact.what)}, a las ${time(fact.fromMs)}`)
          : format.stop(
              `atMs es antes ${before(fact.what)}: la bandeja ${fact.tray} admite acciones desde las ${time(fact.fromMs)}`,
            );
      case "lap-too-short":
        return "Esa galleta acaba de empezar: cada una necesita al menos 2 s.";
      case "set-too-soon":
        return `Es pronto para que esté fijada: hacen falta al menos ${fact.leastS} s de calor. Deshágalo si fue un descuido.`;
      case "tool-used-since":
        return `${name(fact.tool)} se ha usado desde entonces: mírela y diga otra vez si está apagada.`;
      case "pick-up-past":
        return "order.pickUpAtMs ya pasó: el retiro de un pedido nuevo debe estar por llegar.";
      case "use-by-range":
        return "batch.useByAtMs debe ser después de la mezcla, y como máximo 14 días después.";
      case "mixed-too-long-ago":
        return "batch.mixedAtMs debe estar dentro de los últimos 15 días.";
      case "tray-packed":
        return `La bandeja ${fact.tray} ya está empacada.`;
      case "under-heat":
        return `La bandeja ${fact.tray} está bajo calor: termine antes el fijado.`;
      case "not-under-heat":
        return `La bandeja ${fact.tray} no está bajo calor: empiece antes el fijado.`;
      case "heat-running":
        return `La bandeja ${fact.tray} ya se está fijando con calor: uno a la vez.`;
      case "nothing-to-set":
        return `La bandeja ${fact.tray} aún no tiene glaseado que fijar.`;
      case "all-layers-laid":
        return `La bandeja ${fact.tray} tiene todas sus capas: se seca por completo y después se empaca.`;
      case "flooding-already":
        return `La bandeja ${fact.tray} ya se está rellenando.`;
      case "still-flooding":
        return `La bandeja ${fact.tray} aún se está rellenando.`;
      case "stands-there":
        return `La bandeja ${fact.tray} ya está ahí.`;
      case "has-icing":
        return `La bandeja ${fact.tray} ya tiene glaseado: solo se quita una que aún espera su relleno.`;
      case "number-taken":
        return `Otra bandeja tiene ahora el número ${fact.tray}.`;
      case "order-gone":
        return `El pedido de la bandeja ${fact.tray} ya no está aquí.`;
      case "place-gone":
        return `La bandeja ${fact.tray} estaba en un lugar que ya no existe.`;
      case "no-such-act":
        return `La bandeja ${fact.tray} no tiene esa acción en su historial.`;
      case "still-needs":
        return `A la bandeja ${fact.tray} le falta la ${layerOf(fact.layer)}.`;
      case "nothing-drying":
        return `La bandeja ${fact.tray} no tiene ${fact.layer === undefined ? "ninguna capa" : `la capa ${fact.layer + 1}`} secándose: no hay nada que tocar.`;
      case "is-oven":
        return `${name(fact.place)} es un horno: use Fijar con calor, para que corra su reloj.`;
      case "is-oven-add":
        return `${name(fact.place)} es un horno: una bandeja llega ahí al fijarla con calor.`;
      case "is-cabinet-add":
        return `${name(fact.place)} es un armario tibio: una bandeja se mueve ahí cuando está glaseada.`;
      case "holds-fewer":
        return `${fact.field} debe ser de ${fact.field === "count" ? 1 : 0} a ${fact.count}: la bandeja ${fact.tray} tiene ${cookies(fact.count)}.`;
      case "holds-fewer-good":
        return `seconds y lost juntos deben ser como máximo ${fact.count}: la bandeja ${fact.tray} tiene ${fact.count} galletas buenas.`;
      case "risk":
        return `${risk(fact.risk)} ${question(fact.risk, fact.next)}`;
      case "owner-left":
        return `${name(fact.name)} se ha ido: la bandeja ${fact.tray} queda para todos.`;
      case "heat-paused":
        return "El calor no está sobre ninguna galleta: toque antes «Poner calor».";
      case "heat-on-already":
        return "El calor ya está puesto: su reloj corre.";
      case "no-next-cookie":
        return "Un horno o un armario fija la bandeja entera: no hay galleta siguiente.";
      case "all-had-heat":
        return `Las ${cookies(fact.count)} de la bandeja ${fact.tray} ya tuvieron su calor: pare el fijado.`;
      case "taken-back":
        return "Esa acción ya se deshizo.";
      case "heat-ended-long-ago":
        return `Ese fijado terminó hace más de ${fact.minutes} minutos: empiece otro.`;
      case "heat-started-long-ago":
        return `Ese fijado empezó hace más de ${fact.seconds} s: ${fact.isRunning ? "termínelo." : "queda en el historial de la bandeja."}`;
      case "cookie-set-long-ago":
        return `Esa galleta se fijó hace más de ${fact.seconds} s: su reloj ya no sigue. Avise de un problema con ella.`;
      case "tool-cold":
        return `${unfit(fact.unfit)[0]}: empiece otro fijado.`;
      case "take-back-first":
        return format.stop(`Deshaga antes lo que vino después: ${act(fact.act)}, ${time(fact.atMs)}`);
      case "alert-cleared":
        return "Esa alerta ya se resolvió.";
      case "alert-seen":
        return "Esa alerta ya se confirmó.";
      case "alert-urgent":
        return "Una alerta urgente no se puede aplazar.";
      case "alert-of-heat":
        return "El calor en marcha no espera: esto no se puede aplazar.";
      case "tool-on":
        return `${name(fact.tool)} ya está encendida.`;
      case "tool-not-on":
        return `${name(fact.tool)} no está encendida.`;
      case "tool-in-service":
        return `${name(fact.tool)} está en servicio.`;
      case "turn-off-first":
        return `${name(fact.tool)} está encendida: diga antes que está apagada.`;
      case "over-tray":
        return fact.first === "stop"
          ? `${name(fact.tool)} está sobre la bandeja ${fact.tray}: pare antes el fijado.`
          : `${name(fact.tool)} está sobre la bandeja ${fact.tray}: su tipo se puede cambiar cuando termine el fijado.`;
      case "not-on-to-hand-over":
        return `${name(fact.tool)} no está encendida: no hay nada que entregar.`;
      case "holds-already":
        return `${name(fact.name)} ya tiene ${name(fact.tool)}.`;
      case "still-hot":
        return `${name(fact.tool)} estará caliente hasta cerca de las ${time(fact.untilMs)}: quítela cuando se haya enfriado.`;
      case "read-too-high":
        return `tempC debe ser de -5 a ${fact.most} °C para ${name(fact.tool)}: ¿se escribió ${format.number(fact.tempC, 1)} en °F, o con una cifra de más?`;
      case "place-holds":
        return `${name(fact.place)} aún tiene ${trays(fact.trays)}: muévalas antes.`;
      case "place-has-tool":
        return `En ${name(fact.place)} está ${name(fact.tool)}: quite antes la herramienta.`;
      case "place-fixed":
        return `place.${fact.field} se puede cambiar cuando la bandeja ${fact.tray} salga de ${name(fact.tool)}: termine antes su fijado.`;
      case "place-kind-fixed":
        return `place.kind debe ser ${fact.kind} mientras ${name(fact.tool)} esté ahí: quite antes la herramienta.`;
      case "set-temp-missing":
        return `Falta place.setTempC: ${name(fact.place)} necesita la temperatura a la que está puesto.`;
      case "set-temp-over-tool":
        return `place.setTempC debe ser como máximo ${temp(fact.maxC)}: ${name(fact.tool)} nunca puede estar más caliente.`;
      case "set-temp-not-here":
        return `place.setTempC es para hornos y armarios tibios: un lugar del tipo ${placeKinds[fact.kind]} tiene la temperatura de la sala.`;
      case "limit-under-air":
        return `tool.maxAirC debe ser al menos ${temp(fact.airC)}, el aire al que está puesta ${name(fact.tool)}: llegó ${temp(fact.maxC)}.`;
      case "iced-with":
        return `${name(fact.design)} se glasea con ${name(fact.icing)}: cambie antes el diseño.`;
      case "stands-mixed":
        return `Hay ${name(fact.icing)} mezclado: diga antes que se acabaron sus mezclas.`;
      case "made-by":
        return `${name(fact.icing)} se hace con ${name(fact.recipe)}: cambie antes el glaseado.`;
      case "design-earlier":
        return `Este es ${name(fact.design)} como era antes, para las bandejas que se empezaron así: cambie el más nuevo.`;
      case "design-on-trays":
        return `${name(fact.design)} está en ${trays(fact.trays)}: podrá quitarse cuando estén empacadas y archivadas.`;
      case "order-not-here":
        return "Ese pedido ya no está aquí: se empacó y archivó, o se canceló.";
      case "order-has-trays":
        return `${name(fact.order)} aún tiene ${trays(fact.trays)}: empáquelas o quítelas antes.`;
      case "gives-itself":
        return `toId debe ser otro pedido que ${name(fact.order)}.`;
      case "has-fewer-over":
        return `count debe ser de 1 a ${fact.count}: a ${name(fact.order)} le sobran ${cookies(fact.count)} empacadas de ese diseño.`;
      case "order-packed":
        return `${cookies(fact.cookies)} de ${name(fact.order)} están empacadas y quedarían sin pedido: cambie mejor cuántas necesita.`;
      case "tray-id-taken":
        return `${fact.field} ya es de otra bandeja.`;
      case "tray-number-in-use":
        return `La bandeja ${fact.tray} está en uso: queda libre cuando se empaque.`;
      case "batch-gone":
        return "Esa mezcla ya se acabó, se tiró o se archivó.";
      case "batch-recorded":
        return "Esa mezcla ya está anotada.";
      default:
        return unreachable(fact);
    }
  };
  return { say };
};
