import { MOST } from "#shared/limits.ts";
import type { CommandOf } from "#shared/kitchen/model/command.ts";
import { nameTaken, numbersOf, tableFull } from "./checks.ts";
import { no, yes, type Deciding, type Decision } from "./deciding.ts";

/** Icings and designs: what cookies are decorated with, and how. */
export function putIcing(command: CommandOf<"put-icing">, { kitchen, stamp }: Deciding): Decision {
  const twin = nameTaken(kitchen.icings, command.icing, "icing");
  if (twin !== undefined) return twin;
  return (
    tableFull(kitchen.icings, command.icing.id, MOST.icings, "icing") ??
    yes({ type: "icing-put", ...stamp, icing: command.icing })
  );
}

export function removeIcing(command: CommandOf<"remove-icing">, { kitchen, stamp }: Deciding): Decision {
  const icing = kitchen.icings[command.icingId];
  if (icing === undefined) return no("unknown", { code: "no-such", thing: "icing", id: command.icingId });
  const design = Object.values(kitchen.designs).find(({ layers }) =>
    layers.some(({ icingId }) => icingId === icing.id),
  );
  if (design !== undefined)
    return no("in-use", { code: "iced-with", design: design.name, icing: icing.name });
  if (Object.values(kitchen.batches).some(({ icingId }) => icingId === icing.id))
    return no("in-use", { code: "stands-mixed", icing: icing.name });
  return yes({ type: "icing-removed", ...stamp, icingId: icing.id });
}

export function putDesign({ design }: CommandOf<"put-design">, { kitchen, stamp }: Deciding): Decision {
  const stranger = design.layers.findIndex(({ icingId }) => kitchen.icings[icingId] === undefined);
  if (stranger >= 0)
    return no("unknown", { code: "must-name", field: `design.layers.${stranger}.icingId`, thing: "icing" });
  const before = kitchen.designs[design.id];
  const begun = Object.values(kitchen.trays).filter(
    (tray) => tray.designId === design.id && tray.history.length > 0,
  );
  if (
    before !== undefined &&
    begun.length > 0 &&
    JSON.stringify(before.layers) !== JSON.stringify(design.layers)
  )
    return no("in-use", { code: "design-in-use", design: before.name, trays: numbersOf(begun) });
  return (
    tableFull(kitchen.designs, design.id, MOST.designs, "design") ??
    yes({ type: "design-put", ...stamp, design })
  );
}

export function removeDesign(command: CommandOf<"remove-design">, { kitchen, stamp }: Deciding): Decision {
  const design = kitchen.designs[command.designId];
  if (design === undefined) return no("unknown", { code: "no-such", thing: "design", id: command.designId });
  const trays = Object.values(kitchen.trays).filter((tray) => tray.designId === design.id);
  if (trays.length > 0)
    return no("in-use", { code: "design-on-trays", design: design.name, trays: numbersOf(trays) });
  return yes({ type: "design-removed", ...stamp, designId: design.id });
}
