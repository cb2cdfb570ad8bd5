import { asId, type DesignId } from "#shared/ids.ts";
import { currentDesigns, originalOf } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { RefusalFact } from "#shared/kitchen/model/refusal.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";
import { MOST } from "#shared/limits.ts";
import type { CommandOf } from "#shared/kitchen/model/command.ts";
import { nameTaken, numbersOf, tableFull } from "./checks.ts";
import { no, yes, type Deciding, type Decision } from "./deciding.ts";

/** Icings and designs: what cookies are decorated with, and how. */
export function putIcing(command: CommandOf<"put-icing">, { kitchen, stamp }: Deciding): Decision {
  const { recipeId } = command.icing;
  if (recipeId !== undefined && kitchen.recipes?.[recipeId] === undefined)
    return no("unknown", { code: "must-name", field: "icing.recipeId", thing: "recipe" });
  return (
    nameTaken(kitchen.icings, command.icing, "icing") ??
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

export function putRecipe({ recipe }: CommandOf<"put-recipe">, { kitchen, stamp }: Deciding): Decision {
  const { recipes = {} } = kitchen;
  return (
    nameTaken(recipes, recipe, "recipe") ??
    tableFull(recipes, recipe.id, MOST.recipes, "recipe") ??
    yes({ type: "recipe-put", ...stamp, recipe })
  );
}

export function removeRecipe(
  { recipeId }: CommandOf<"remove-recipe">,
  { kitchen, stamp }: Deciding,
): Decision {
  const recipe = kitchen.recipes?.[recipeId];
  if (recipe === undefined) return no("unknown", { code: "no-such", thing: "recipe", id: recipeId });
  const icing = Object.values(kitchen.icings).find((one) => one.recipeId === recipeId);
  if (icing !== undefined) return no("in-use", { code: "made-by", recipe: recipe.name, icing: icing.name });
  return yes({ type: "recipe-removed", ...stamp, recipeId });
}

export function putDesign(
  { design: given }: CommandOf<"put-design">,
  { kitchen, stamp, drawingFault }: Deciding,
): Decision {
  const { revisionOf: _ours, ...design } = given;
  const stranger = design.layers.findIndex(({ icingId }) => kitchen.icings[icingId] === undefined);
  if (stranger >= 0)
    return no("unknown", { code: "must-name", field: `design.layers.${stranger}.icingId`, thing: "icing" });
  const undrawn = undrawnPart(design);
  if (undrawn !== undefined) return no("unknown", undrawn);
  const fault = design.drawing && drawingFault?.(design.drawing);
  if (fault !== undefined) return no("malformed", { code: "bad-drawing", field: "design.drawing", fault });
  const before = kitchen.designs[design.id];
  if (before?.revisionOf !== undefined) return no("in-use", { code: "design-earlier", design: before.name });
  const refusal =
    nameTaken(currentDesigns(kitchen), design, "design") ??
    tableFull(kitchen.designs, design.id, MOST.designs, "design");
  if (refusal !== undefined) return refusal;
  const begun = Object.values(kitchen.trays).filter(
    (tray) => tray.designId === design.id && tray.history.length > 0,
  );
  if (before === undefined || begun.length === 0 || !isOtherwiseIced(before, design))
    return yes({ type: "design-put", ...stamp, design });
  return yes({
    type: "design-revised",
    ...stamp,
    design,
    earlierId: earlierId(kitchen, design.id),
    trayIds: begun.map(({ id }) => id),
  });
}

/** A layer that covers areas or lines which the design's drawing does not have. */
function undrawnPart({ layers, drawing }: Design): RefusalFact | undefined {
  for (const [k, { covers }] of layers.entries())
    for (const of of ["areas", "lines"] as const) {
      const drawn = new Set(drawing?.[of].map(({ id }) => id));
      if (covers?.[of].some((id) => !drawn.has(id)) === true)
        return { code: "not-drawn", field: `design.layers.${k}.covers.${of}`, of };
    }
  return undefined;
}

/** Whether trays begun by a design would go on otherwise by the changed one. */
const isOtherwiseIced = (before: Design, after: Design): boolean => icedAs(before) !== icedAs(after);

const icedAs = ({ name: _name, isArchived: _isArchived, revisionOf: _of, ...rest }: Design): string =>
  JSON.stringify(Object.entries(rest).toSorted(([a], [b]) => (a < b ? -1 : 1)));

/** The first free id for an earlier version. */
function earlierId({ designs }: Kitchen, id: string): DesignId {
  for (let version = 1; ; version += 1) {
    const free = `${id.slice(0, 34)}-v${version}`;
    if (designs[free] === undefined) return asId<DesignId>(free);
  }
}

export function removeDesign(command: CommandOf<"remove-design">, { kitchen, stamp }: Deciding): Decision {
  const design = kitchen.designs[command.designId];
  if (design === undefined) return no("unknown", { code: "no-such", thing: "design", id: command.designId });
  const trays = Object.values(kitchen.trays).filter(
    ({ designId }) => originalOf(kitchen, designId) === design.id || designId === design.id,
  );
  if (trays.length > 0)
    return no("in-use", { code: "design-on-trays", design: design.name, trays: numbersOf(trays) });
  return yes({ type: "design-removed", ...stamp, designId: design.id });
}
