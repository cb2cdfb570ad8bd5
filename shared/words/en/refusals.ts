import { unreachable } from "#shared/outcome.ts";
import type { LayerFact } from "#shared/kitchen/model/risk.ts";
import type { BeforeWhat, RefusalFact, Table, Thing, UnfitFact } from "#shared/kitchen/model/refusal.ts";
import type { Formats } from "#shared/words/formats.ts";
import { acts } from "./acts.ts";
import { drawings } from "./drawings.ts";
import { faults } from "./faults.ts";
import { terms } from "./terms.ts";

const ONE: Record<Thing, string> = {
  tray: "tray",
  tool: "tool",
  place: "place",
  icing: "icing",
  recipe: "recipe",
  design: "design",
  order: "order",
  person: "person",
};
const MANY: Record<Table | "tray" | "batch" | "person", string> = {
  tray: "trays",
  tool: "tools",
  place: "places",
  icing: "icings",
  recipe: "recipes",
  design: "designs",
  order: "orders",
  person: "people",
  batch: "batches of icing",
};
const A: Record<Table, string> = {
  tool: "a tool",
  place: "a place",
  icing: "an icing",
  recipe: "a recipe",
  design: "a design",
  order: "an order",
};
const CHAMBERS = { oven: "oven", "warm-cabinet": "warm cabinet" } as const;

/** Why a command was refused. */
export const refusals = (format: Formats) => {
  const { name, time, temp } = format;
  const { cookies, trayCount, trays, layer, placeKinds } = terms(format);
  const { must, say: sayBad } = faults(format);
  const { say: act, risk, question } = acts(format);
  const layerOf = (fact: LayerFact): string => layer(fact.layer, fact.icing);

  /** What is the matter with a tool, and what more is to be known or done. */
  const unfit = (fact: UnfitFact): [matter: string, more: string] => {
    switch (fact.why) {
      case "out of service":
        return [`${name(fact.tool)} is out of service`, name(fact.note)];
      case "read too hot":
        return [
          `${name(fact.tool)} was read at ${temp(fact.readC)}, over its limit of ${temp(fact.maxC)}`,
          "let it cool and enter its temperature again.",
        ];
      case "in use":
        return [`${name(fact.tool)} is over tray ${fact.tray} now`, "one tray at a time."];
      case "full":
        return [`${name(fact.place)} is full`, `it holds ${trayCount(fact.capacity)}.`];
      case "gone":
        return ["Its tool is not here any more", ""];
      case "another kind":
        return [`${name(fact.tool)} is another kind of tool now`, ""];
      default:
        return unreachable(fact);
    }
  };

  const before = (what: BeforeWhat): string =>
    ({
      flooding: "its flooding started",
      laid: "its last layer was laid",
      drying: "its drying clock started",
      placed: "it came to where it stands",
      "heat-set": "this heat-set's clock",
      "icing laid": "the icing was laid",
    })[what];

  /** A refusal as a sentence. */
  const say = (fact: RefusalFact): string => {
    switch (fact.code) {
      case "said":
        return fact.text;
      case "no-such":
        return fact.thing === "person"
          ? `No one here has the id ${fact.id}.`
          : `There is no ${ONE[fact.thing]} with the id ${fact.id}.`;
      case "must-name":
        return `${fact.field} must name one of the kitchen's ${MANY[fact.thing]}.`;
      case "not-drawn":
        return `${fact.field} must name ${fact.of} that the design's drawing has: choose them again.`;
      case "must-name-chamber":
        return `${fact.field} must name the ${CHAMBERS[fact.kind]} among the places that this tool is.`;
      case "must-name-place-not-oven":
        return `${fact.field} must name a place of this kitchen that is not an oven.`;
      case "must-name-other-place":
        return `${fact.field} must be another place of this kitchen.`;
      case "field":
        return `${fact.field} ${must(fact.must)}.`;
      case "bad-field":
        return sayBad(fact.bad);
      case "no-place-named":
        return `${fact.field} must be the id or the name of one of the kitchen's places: there is no ${fact.named}.`;
      case "server-failed":
        return "The server failed on this. Nothing was changed.";
      case "answer-unreadable":
        return "This was decided before, but its answer cannot be read.";
      case "not-saved":
        return "It could not be saved.";
      case "bad-drawing":
        return `${fact.field}: ${drawings(format).fault(fact.fault)}`;
      case "name-taken":
        return `There is ${A[fact.thing]} called ${name(fact.name)} already.`;
      case "table-full":
        return fact.thing === "batch"
          ? `At most ${fact.most} batches of icing stand at once: say which are used up or thrown away.`
          : fact.thing === "person"
            ? `A kitchen holds at most ${fact.most} people: a lead can remove some under Room.`
            : `A kitchen holds at most ${fact.most} ${MANY[fact.thing]}${fact.thing === "tray" ? " at once" : ""}.`;
      case "place-full":
        return `${name(fact.place)} is full: it holds ${trayCount(fact.capacity)}.`;
      case "unfit":
        return unfit(fact.unfit).join(": ");
      case "kitchen-only":
        return "Only the kitchen's own server does that.";
      case "sensor-only-reads":
        return "A sensor may only send readings.";
      case "wall-only-shows":
        return "The wall only shows. Join this screen as a bench screen to tap on it.";
      case "leads-only":
        return "Only a lead can change that. Ask a lead, or have one make you a lead under Room.";
      case "give-is-leads":
        return "Only a lead gives a tray to somebody else. You can take one yourself, or give yours back.";
      case "not-for-others":
        return "Only a bench screen acts for somebody else, on trays, for a person who is here.";
      case "removed":
        return "You were removed from this kitchen: join again.";
      case "needs-hands":
        return fact.what === "tool"
          ? "A tool is switched on by hands."
          : "A heat-set is started by hands that hold the tool.";
      case "wrong-source":
        return `reading.source must be ${fact.source}: it is sent by a ${fact.role}.`;
      case "no-hours":
        return `${name(fact.name)} is a ${fact.is === "bench" ? "bench screen" : fact.is}: only a person has hours.`;
      case "not-a-person":
        return `${name(fact.name)} is a ${fact.is === "bench" ? "bench screen" : fact.is}: only a person can be a lead or a decorator.`;
      case "role-not-given":
        return "role must be lead or decorator: a wall or a sensor joins as what it is.";
      case "only-lead":
        return `${name(fact.name)} is the only lead: make someone else a lead first.`;
      case "person-name-taken":
        return `${name(fact.name)} is here already: choose another name.`;
      case "no-such-device":
        return `There is no device ${fact.id}: it was turned away or forgotten.`;
      case "too-many-wait":
        return `At most ${fact.most} devices wait to be let in: a lead lets them in or turns them away first.`;
      case "device-is-in":
        return "That device was let in already.";
      case "own-device":
        return "This device cannot forget itself: leave the kitchen on it.";
      case "last-lead":
        return "The last lead cannot be removed: make someone else a lead first.";
      case "holds-tool":
        return `${name(fact.tool)} is on in the hands of ${name(fact.name)}: hand it over, or say it is off, then remove ${name(fact.name)}.`;
      case "heats-tray":
        return `Tray ${fact.tray} is under heat in the hands of ${name(fact.name)}: end its heat-set, or hand the tool over first.`;
      case "no-hands":
        return `${name(fact.name)} has no hands: hand ${name(fact.tool)} to a lead or a decorator.`;
      case "not-yours":
        return `Only ${name(fact.name ?? "whoever did it")} or a lead can take that back.`;
      case "in-future":
        return "atMs lies in the future: it must be at most 5 s ahead of the kitchen's clock.";
      case "too-far-back":
        return "atMs lies too far back: it must be within the last 12 hours.";
      case "id-used":
        return "commandId was used for another command: it must be one that no other command, from no other device, had.";
      case "before":
        return fact.tray === undefined
          ? fact.what === "heat-set"
            ? `atMs lies before this heat-set's clock: it runs from ${time(fact.fromMs)}.`
            : `atMs lies before ${before(fact.what)} at ${time(fact.fromMs)}.`
          : `atMs lies before ${before(fact.what)}: tray ${fact.tray} takes acts from ${time(fact.fromMs)} on.`;
      case "lap-too-short":
        return "That cookie has only just started: a lap is at least 2 s.";
      case "set-too-soon":
        return `Too soon to be set: that takes at least ${fact.leastS} s under heat. Undo it if it was a slip.`;
      case "tool-used-since":
        return `${name(fact.tool)} has been in use since then: look at it, and say again if it is off.`;
      case "pick-up-past":
        return "order.pickUpAtMs lies in the past: a new order's pick-up must be still to come.";
      case "use-by-range":
        return "batch.useByAtMs must lie after mixing, and at most 14 days after it.";
      case "mixed-too-long-ago":
        return "batch.mixedAtMs must lie within the last 15 days.";
      case "tray-packed":
        return `Tray ${fact.tray} is packed already.`;
      case "under-heat":
        return `Tray ${fact.tray} is under heat: end the heat-set first.`;
      case "not-under-heat":
        return `Tray ${fact.tray} is not under heat: start a heat-set first.`;
      case "heat-running":
        return `Tray ${fact.tray} is under a heat-set already: one at a time.`;
      case "nothing-to-set":
        return `Tray ${fact.tray} has no icing to set yet.`;
      case "all-layers-laid":
        return `Tray ${fact.tray} has all its layers: it dries through, then it is packed.`;
      case "flooding-already":
        return `Tray ${fact.tray} is being flooded already.`;
      case "still-flooding":
        return `Tray ${fact.tray} is still being flooded.`;
      case "stands-there":
        return `Tray ${fact.tray} stands there already.`;
      case "has-icing":
        return `Tray ${fact.tray} has icing on it: only a tray still waiting to be flooded can be removed.`;
      case "number-taken":
        return `Another tray has the number ${fact.tray} now.`;
      case "order-gone":
        return `The order of tray ${fact.tray} is not here any more.`;
      case "place-gone":
        return `Tray ${fact.tray} stood in a place that is not here any more.`;
      case "no-such-act":
        return `Tray ${fact.tray} has no such act in its history.`;
      case "still-needs":
        return `Tray ${fact.tray} still needs ${layerOf(fact.layer)}.`;
      case "nothing-drying":
        return `Tray ${fact.tray} has no ${fact.layer === undefined ? "film" : `layer ${fact.layer + 1}`} drying yet: there is nothing to touch.`;
      case "is-oven":
        return `${name(fact.place)} is an oven: use Heat-set, so that its clock runs.`;
      case "is-oven-add":
        return `${name(fact.place)} is an oven: a tray comes there by a heat-set.`;
      case "is-cabinet-add":
        return `${name(fact.place)} is a warm cabinet: a tray is moved there once it is iced.`;
      case "holds-fewer":
        return `${fact.field} must be ${fact.field === "count" ? 1 : 0} to ${fact.count}: tray ${fact.tray} holds ${cookies(fact.count)}.`;
      case "holds-fewer-good":
        return `seconds and lost must be at most ${fact.count} together: tray ${fact.tray} holds ${fact.count} good cookies.`;
      case "risk":
        return `${risk(fact.risk)} ${question(fact.risk, fact.next)}`;
      case "owner-left":
        return `${name(fact.name)} has left: tray ${fact.tray} stays with everyone.`;
      case "heat-paused":
        return "The heat is on no cookie: tap “Heat on” first.";
      case "heat-on-already":
        return "The heat is on already: its clock runs.";
      case "no-next-cookie":
        return "An oven or a cabinet sets the whole tray at once: there is no next cookie.";
      case "all-had-heat":
        return `All ${cookies(fact.count)} of tray ${fact.tray} have had their heat: stop the heat-set.`;
      case "taken-back":
        return "That act was taken back already.";
      case "heat-ended-long-ago":
        return `That heat-set ended over ${fact.minutes} minutes ago: start a new one instead.`;
      case "heat-started-long-ago":
        return `That heat-set started over ${fact.seconds} s ago: ${fact.isRunning ? "end it instead." : "it stays in the tray's history."}`;
      case "cookie-set-long-ago":
        return `That cookie was set over ${fact.seconds} s ago: its clock does not run on. Report a problem with it instead.`;
      case "tool-cold":
        return `${unfit(fact.unfit)[0]}: start a new heat-set instead.`;
      case "take-back-first":
        return `Take back what came after it first: ${act(fact.act)}, ${time(fact.atMs)}.`;
      case "alert-cleared":
        return "That alert has cleared already.";
      case "alert-seen":
        return "That alert was acknowledged already.";
      case "alert-urgent":
        return "An urgent alert cannot be put off.";
      case "alert-of-heat":
        return "Heat that is running does not wait, so this cannot be put off.";
      case "tool-on":
        return `${name(fact.tool)} is on already.`;
      case "tool-not-on":
        return `${name(fact.tool)} is not on.`;
      case "tool-in-service":
        return `${name(fact.tool)} is in service.`;
      case "turn-off-first":
        return `${name(fact.tool)} is on: say it is off first.`;
      case "over-tray":
        return fact.first === "stop"
          ? `${name(fact.tool)} is over tray ${fact.tray}: stop the heat-set first.`
          : `${name(fact.tool)} is over tray ${fact.tray}: its kind can be changed once that heat-set has ended.`;
      case "not-on-to-hand-over":
        return `${name(fact.tool)} is not on: there is nothing to hand over.`;
      case "holds-already":
        return `${name(fact.name)} holds ${name(fact.tool)} already.`;
      case "still-hot":
        return `${name(fact.tool)} is hot until about ${time(fact.untilMs)}: remove it once it has cooled.`;
      case "read-too-high":
        return `tempC must be -5 to ${fact.most} °C for ${name(fact.tool)}: was ${format.number(fact.tempC, 1)} typed in °F, or with a digit too many?`;
      case "place-holds":
        return `${name(fact.place)} still holds ${trays(fact.trays)}: move them first.`;
      case "place-has-tool":
        return `${name(fact.place)} is where ${name(fact.tool)} is: remove the tool first.`;
      case "place-fixed":
        return `place.${fact.field} can be changed once tray ${fact.tray} is out of ${name(fact.tool)}: end its heat-set first.`;
      case "place-kind-fixed":
        return `place.kind must be ${fact.kind} while ${name(fact.tool)} is there: remove the tool first.`;
      case "set-temp-missing":
        return `place.setTempC is missing: ${name(fact.place)} needs the temperature it is set to.`;
      case "set-temp-over-tool":
        return `place.setTempC must be at most ${temp(fact.maxC)}: ${name(fact.tool)} may never be hotter.`;
      case "set-temp-not-here":
        return `place.setTempC is for ovens and warm cabinets: a ${placeKinds[fact.kind]} has the room's temperature.`;
      case "limit-under-air":
        return `tool.maxAirC must be at least ${temp(fact.airC)}, the air ${name(fact.tool)} is set to: got ${temp(fact.maxC)}.`;
      case "iced-with":
        return `${name(fact.design)} is iced with ${name(fact.icing)}: change the design first.`;
      case "stands-mixed":
        return `${name(fact.icing)} is mixed already: say first that its batches are used up.`;
      case "made-by":
        return `${name(fact.icing)} is made by ${name(fact.recipe)}: change the icing first.`;
      case "design-earlier":
        return `This is ${name(fact.design)} as it was, kept for the trays begun by it: change the newest one.`;
      case "design-on-trays":
        return `${name(fact.design)} is on ${trays(fact.trays)}: it can go once they are packed and archived.`;
      case "order-not-here":
        return "That order is not here any more: it was packed and archived, or cancelled.";
      case "order-has-trays":
        return `${name(fact.order)} still has ${trays(fact.trays)}: pack or remove them first.`;
      case "gives-itself":
        return `toId must be another order than ${name(fact.order)}.`;
      case "has-fewer-over":
        return `count must be 1 to ${fact.count}: ${name(fact.order)} has ${cookies(fact.count)} packed of that design that it does not need.`;
      case "order-packed":
        return `${cookies(fact.cookies)} of ${name(fact.order)} are packed, and would belong to no order: change how many it needs instead.`;
      case "tray-id-taken":
        return `${fact.field} is another tray's already.`;
      case "tray-number-in-use":
        return `Tray ${fact.tray} is in use: it is free again once packed.`;
      case "batch-gone":
        return "That batch is used up, thrown away or archived already.";
      case "batch-recorded":
        return "That batch is recorded already.";
      default:
        return unreachable(fact);
    }
  };
  return { say };
};
