import { For, Show, createMemo, createSignal } from "solid-js";
import { sortedByName } from "#shared/collections.ts";
import { recipeMassG } from "#shared/kitchen/mixing/recipes.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { RecipeForm } from "./recipe-form.tsx";

/** The kitchen's recipes; a lead adds one. */
export function Recipes() {
  const { board, isLead, words } = usePhone();
  const text = () => words().trace.recipes;
  const [isAdding, setAdding] = createSignal(false);
  const recipes = createMemo(() => sortedByName(board.kitchen().recipes ?? {}));
  const icingsOf = (recipeId: string): string[] =>
    sortedByName(board.kitchen().icings)
      .filter((icing) => icing.recipeId === recipeId)
      .map(({ name }) => name);
  return (
    <section class="editor">
      <ul class="cards">
        <For each={recipes()} fallback={<li class="quiet">{text().none}</li>}>
          {(recipe) => (
            <li>
              <a class="line-card" href={`#/recipes/${recipe.id}`}>
                <span class="words">
                  <strong>{recipe.name}</strong>
                  <span>{text().line(icingsOf(recipe.id), recipeMassG(recipe))}</span>
                </span>
              </a>
            </li>
          )}
        </For>
      </ul>
      <Show when={isLead()}>
        <Show
          when={isAdding()}
          fallback={
            <button type="button" class="plain wide" onClick={() => setAdding(true)}>
              {text().add}
            </button>
          }
        >
          <RecipeForm recipe={undefined} onDone={() => setAdding(false)} />
        </Show>
      </Show>
    </section>
  );
}
