import { For, Show, createMemo } from "solid-js";
import { rangeOf } from "#shared/fields.ts";
import { sortedByName } from "#shared/collections.ts";
import { asId, type IcingId, type RecipeId } from "#shared/ids.ts";
import { waterPct } from "#shared/kitchen/model/settings.ts";
import { Consistency, Icing } from "#shared/kitchen/model/vocabulary.ts";
import { createDraft } from "#phone/ui/draft.ts";
import { EditorList } from "#phone/ui/editor-list.tsx";
import { Select, TextField } from "#phone/ui/fields.tsx";
import { NumberField, TempField } from "#phone/ui/number-field.tsx";
import { Form } from "#phone/ui/form.tsx";
import { Gone } from "#phone/ui/page.tsx";
import { usePhone } from "#phone/app/phone.tsx";

/** The kitchen's icings by colour; a lead adds and changes them. */
export function Icings() {
  const { board, words } = usePhone();
  return (
    <EditorList
      items={board.kitchen().icings}
      path="icings"
      none={words().icing.list.none}
      add={words().icing.list.add}
      line={(icing) => (
        <>
          <span class="swatch" style={{ background: icing.hex }} aria-hidden="true" />
          <span class="words">
            <strong>{icing.name}</strong>
          </span>
        </>
      )}
      form={(icing, done) => <IcingForm icing={icing()} onDone={done} />}
    />
  );
}

/** One icing by itself. */
export function IcingColour(props: { id: string }) {
  const { board, isLead, go, words } = usePhone();
  const icing = createMemo(() => board.kitchen().icings[props.id]);
  return (
    <main>
      <Show when={icing()} fallback={<Gone text={words().desk.gone} />}>
        {(icing) => (
          <>
            <h1>{icing().name}</h1>
            <Show
              when={isLead()}
              fallback={<span class="swatch" style={{ background: icing().hex }} aria-hidden="true" />}
            >
              <Show when={props.id} keyed>
                {(_id) => <IcingForm icing={icing()} onDone={() => go("icings")} />}
              </Show>
            </Show>
          </>
        )}
      </Show>
    </main>
  );
}

function IcingForm(props: { icing: Icing | undefined; onDone: () => void }) {
  const { act, newId, board, words } = usePhone();
  const text = () => words().icing.list;
  const opened: Icing = props.icing ?? { id: asId<IcingId>(newId()), name: "", hex: "#f2e3b6" };
  const { draft, set, changesOn } = createDraft(opened);
  const recipes = createMemo(() => sortedByName(board.kitchen().recipes ?? {}));
  function setWater(consistency: Consistency, pct: number | undefined): void {
    const own = { ...draft.waterPct, [consistency]: pct };
    set("waterPct", Object.values(own).every((each) => each === undefined) ? undefined : own);
  }
  function save(): void {
    const icing = changesOn(props.icing);
    if (act({ type: "put-icing", icing }, words().forms.saved(icing.name.trim()))) props.onDone();
  }
  function remove(): void {
    const { id, name } = opened;
    if (act({ type: "remove-icing", icingId: id }, words().forms.removed(name))) props.onDone();
  }
  return (
    <Form
      onSave={save}
      onRemove={props.icing === undefined ? undefined : remove}
      onLeave={() => props.onDone()}
    >
      <TextField
        label={text().name}
        value={draft.name ?? ""}
        schema={Icing.entries.name}
        onInput={(name) => set("name", name)}
      />
      <TextField
        label={text().colour}
        type="color"
        value={draft.hex ?? ""}
        onInput={(hex) => set("hex", hex)}
      />
      <Show when={recipes().length > 0}>
        <Select
          label={words().trace.recipes.ofIcing}
          value={draft.recipeId ?? ""}
          options={[
            { value: "", name: words().trace.recipes.noRecipe },
            ...recipes().map(({ id, name }) => ({ value: id, name })),
          ]}
          onChange={(id) => set("recipeId", id === "" ? undefined : asId<RecipeId>(id))}
        />
      </Show>
      <TempField
        label={text().laidAt}
        valueC={draft.laidAtC}
        {...rangeOf(Icing.entries.laidAtC)}
        optional
        hint={text().laidAtHint}
        onChange={(tempC) => set("laidAtC", tempC)}
      />
      <label class="tick">
        <input
          type="checkbox"
          checked={draft.isSlow === true}
          onChange={(event) => set("isSlow", event.currentTarget.checked || undefined)}
        />
        <span>
          {text().slow}
          <small>{text().slowHint}</small>
        </span>
      </label>
      <details>
        <summary>{text().ownWater}</summary>
        <For each={Consistency.options}>
          {(consistency) => (
            <NumberField
              label={text().water(consistency)}
              value={draft.waterPct?.[consistency]}
              {...rangeOf(waterPct)}
              unit="%"
              optional
              hint={text().kitchens(board.kitchen().settings.waterPct[consistency])}
              onChange={(pct) => setWater(consistency, pct)}
            />
          )}
        </For>
      </details>
    </Form>
  );
}
