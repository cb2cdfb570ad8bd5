import { For, Show, createMemo, createSignal } from "solid-js";
import { own } from "#shared/collections.ts";
import { rangeOf } from "#shared/fields.ts";
import { icingToMix } from "#shared/kitchen/mixing/icing-needed.ts";
import { ownRecipes, recipeMassG, scaledTo } from "#shared/kitchen/mixing/recipes.ts";
import { MixedBatch, type Recipe } from "#shared/kitchen/model/vocabulary.ts";
import { MIN_MS } from "#shared/time.ts";
import { Gone } from "#phone/ui/page.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { NumberField } from "#phone/ui/number-field.tsx";
import { amountText } from "./recipe-amount.ts";
import { RecipeForm } from "./recipe-form.tsx";

/** One recipe, for as much as is wanted; a lead changes it. */
export function RecipeScreen(props: { id: string }) {
  const { board, words, isLead, go } = usePhone();
  const text = () => words().trace.recipes;
  const [isOpen, setOpen] = createSignal(false);
  const recipe = createMemo(() => own(board.kitchen().recipes ?? {}, props.id));
  return (
    <main>
      <Show when={recipe()} fallback={<Gone text={text().gone} />}>
        {(recipe) => (
          <>
            <h1>{recipe().name}</h1>
            <Show
              when={isOpen()}
              fallback={
                <>
                  <Scaled recipe={recipe()} />
                  <Show when={isLead()}>
                    <button type="button" class="plain wide not-print" onClick={() => setOpen(true)}>
                      {text().change}
                    </button>
                  </Show>
                </>
              }
            >
              <RecipeForm recipe={recipe()} onDone={() => setOpen(false)} onRemoved={() => go("recipes")} />
            </Show>
          </>
        )}
      </Show>
    </main>
  );
}

function Scaled(props: { recipe: Recipe }) {
  const { board, words } = usePhone();
  const text = () => words().trace.recipes;
  const minuteMs = createMemo(() => Math.floor(board.nowMs() / MIN_MS) * MIN_MS);
  const writtenG = () => recipeMassG(props.recipe);
  const toMakeG = createMemo(
    () =>
      ownRecipes(board.kitchen(), icingToMix(board.kitchen(), minuteMs()).mixes).toMake.find(
        ({ recipe }) => recipe.id === props.recipe.id,
      )?.massG,
  );
  const [typedG, setWanted] = createSignal<number | undefined>(Math.round(toMakeG() ?? writtenG()));
  const parts = createMemo(() => scaledTo(props.recipe, typedG() ?? writtenG()));
  return (
    <>
      <NumberField
        label={text().wanted}
        value={typedG()}
        {...rangeOf(MixedBatch.entries.massG)}
        digits={0}
        onChange={setWanted}
      />
      <div class="choices not-print">
        <Show when={toMakeG()}>
          {(massG) => (
            <button type="button" onClick={() => setWanted(Math.round(massG()))}>
              {text().toMake(massG())}
            </button>
          )}
        </Show>
        <button type="button" onClick={() => setWanted(Math.round(writtenG()))}>
          {text().asWritten(writtenG())}
        </button>
      </div>
      <section class="card mix">
        <table>
          <thead>
            <tr>
              <th scope="col">{text().parts}</th>
              <th scope="col">{text().howMuch}</th>
            </tr>
          </thead>
          <tbody>
            <For each={parts()}>
              {(one) => (
                <tr>
                  <th scope="row">{one.name}</th>
                  <td data-what={text().howMuch}>
                    <strong>{amountText(words().format, one)}</strong>
                  </td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
        <Show when={props.recipe.ingredients.some(({ unit }) => unit === "mL")}>
          <p class="note">{text().millilitres}</p>
        </Show>
      </section>
      <p>
        {props.recipe.allergens === undefined
          ? text().noAllergens
          : text().allergensAre(props.recipe.allergens)}
      </p>
      <Show when={props.recipe.method}>
        {(method) => (
          <>
            <h2>{text().method}</h2>
            <p>{method()}</p>
          </>
        )}
      </Show>
    </>
  );
}
