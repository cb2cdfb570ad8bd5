import { Index, Show } from "solid-js";
import { longestOf, rangeOf } from "#shared/fields.ts";
import { asId, type RecipeId } from "#shared/ids.ts";
import { Recipe, RecipeUnit } from "#shared/kitchen/model/vocabulary.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { createDraft } from "#phone/ui/draft.ts";
import { TextField } from "#phone/ui/fields.tsx";
import { Choice } from "#phone/ui/plain-field.tsx";
import { Form } from "#phone/ui/form.tsx";
import { NumberField } from "#phone/ui/number-field.tsx";

/** A part as it is being written. */
interface Part {
  name: string;
  amount: number | undefined;
  unit: RecipeUnit;
}

interface RecipeDraft extends Omit<Recipe, "ingredients"> {
  ingredients: readonly Part[];
}

const FRESH: Part = { name: "", amount: undefined, unit: "g" };
const { entries } = Recipe;
const part = entries.ingredients.pipe[0].item.entries;

/** A recipe: its parts with their amounts, the kitchen's allergen words, and how it is made. */
export function RecipeForm(props: {
  recipe: Recipe | undefined;
  onDone: () => void;
  /** Where it leads once the recipe is removed. */
  onRemoved?: () => void;
}) {
  const { act, newId, words } = usePhone();
  const text = () => words().trace.recipes;
  const opened: RecipeDraft = props.recipe ?? {
    id: asId<RecipeId>(newId()),
    name: "",
    ingredients: [FRESH],
  };
  const { draft, set, changesOn } = createDraft(opened);
  const parts = (): readonly Part[] => draft.ingredients ?? [];
  const change = (k: number, to: Partial<Part>): void =>
    set("ingredients", parts().with(k, { ...parts()[k]!, ...to }));
  function save(): void {
    // Its fields see to it that nothing is missing.
    const recipe = changesOn(props.recipe) as Recipe;
    if (act({ type: "put-recipe", recipe }, words().forms.saved(recipe.name.trim()))) props.onDone();
  }
  function remove(): void {
    const { id, name } = opened;
    if (act({ type: "remove-recipe", recipeId: id }, words().forms.removed(name))) props.onRemoved?.();
  }
  return (
    <Form
      onSave={save}
      onRemove={props.recipe === undefined ? undefined : remove}
      onLeave={() => props.onDone()}
    >
      <TextField
        label={text().name}
        value={draft.name ?? ""}
        schema={entries.name}
        onInput={(name) => set("name", name)}
      />
      <Index each={parts()}>
        {(written, k) => (
          <fieldset class="layer-form">
            <legend>{text().ingredient(k)}</legend>
            <TextField
              label={text().ingredientName}
              value={written().name}
              schema={part.name}
              onInput={(name) => change(k, { name })}
            />
            <NumberField
              label={text().amount}
              value={written().amount}
              {...rangeOf(part.amount)}
              unit={written().unit}
              digits={1}
              onChange={(amount) => change(k, { amount })}
            />
            <Choice
              label={text().unit}
              value={written().unit}
              options={RecipeUnit.options.map((value) => ({ value, name: text().units[value] }))}
              onChange={(unit) => change(k, { unit })}
            />
            <Show when={parts().length > 1}>
              <button
                type="button"
                class="small"
                onClick={() =>
                  set(
                    "ingredients",
                    parts().filter((_, other) => other !== k),
                  )
                }
              >
                {text().removeIngredient(k)}
              </button>
            </Show>
          </fieldset>
        )}
      </Index>
      <Show when={parts().length < longestOf(entries.ingredients)}>
        <button type="button" class="plain wide" onClick={() => set("ingredients", [...parts(), FRESH])}>
          {text().addIngredient}
        </button>
      </Show>
      <TextField
        label={text().allergens}
        value={draft.allergens ?? ""}
        schema={entries.allergens}
        hint={text().allergensHint}
        onInput={(allergens) => set("allergens", allergens.trim() === "" ? undefined : allergens)}
      />
      <TextField
        label={text().method}
        value={draft.method ?? ""}
        schema={entries.method}
        isLong
        onInput={(method) => set("method", method.trim() === "" ? undefined : method)}
      />
    </Form>
  );
}
