import { Show, createMemo, createSignal } from "solid-js";
import { rangeOf } from "#shared/fields.ts";
import { sortedByName } from "#shared/collections.ts";
import { waterPctOf } from "#shared/kitchen/forecast/air.ts";
import { basePctOf } from "#shared/kitchen/mixing/icing-needed.ts";
import { stirIn } from "#shared/kitchen/mixing/stir-in.ts";
import { waterPct } from "#shared/kitchen/model/settings.ts";
import { Consistency, MixedBatch } from "#shared/kitchen/model/vocabulary.ts";
import { Select } from "#phone/ui/fields.tsx";
import { Choice } from "#phone/ui/plain-field.tsx";
import { NumberField } from "#phone/ui/number-field.tsx";
import { usePhone } from "#phone/app/phone.tsx";

const KITCHENS = "";

/** Water to stir into base icing, from its weight and its water to the consistency that is wanted. */
export function StirIn() {
  const { board, words } = usePhone();
  const text = () => words().icing.stir;
  const [icingId, setIcingId] = createSignal(KITCHENS);
  const [baseG, setBaseG] = createSignal<number | undefined>(200);
  const [basePct, setBasePct] = createSignal<number | undefined>(basePctOf(board.kitchen(), KITCHENS));
  const [consistency, setConsistency] = createSignal<Consistency>("flood");
  const own = createMemo(() =>
    sortedByName(board.kitchen().icings).filter((icing) => icing.waterPct !== undefined),
  );
  const answer = createMemo(() => {
    const [grams, pct] = [baseG(), basePct()];
    if (grams === undefined || pct === undefined) return undefined;
    const base = { icingId: icingId(), consistency: consistency(), baseG: grams, basePct: pct };
    return text().answer(stirIn(board.kitchen(), base));
  });
  return (
    <section class="form stir-in not-print">
      <h2>{text().title}</h2>
      <NumberField
        label={text().base}
        value={baseG()}
        {...rangeOf(MixedBatch.entries.massG)}
        onChange={setBaseG}
      />
      <NumberField
        label={text().waterInIt}
        value={basePct()}
        {...rangeOf(waterPct)}
        unit={text().ofMass}
        onChange={setBasePct}
      />
      <Show when={own().length > 0}>
        <Select
          label={text().icing}
          value={icingId()}
          options={[
            { value: KITCHENS, name: text().any },
            ...own().map(({ id, name }) => ({ value: id, name })),
          ]}
          onChange={(id) => {
            setIcingId(id);
            setBasePct(basePctOf(board.kitchen(), id));
          }}
        />
      </Show>
      <Choice
        label={text().wanted}
        value={consistency()}
        options={Consistency.options.map((value) => ({
          value,
          name: text().choice(value, waterPctOf(board.kitchen(), icingId(), value)),
        }))}
        onChange={setConsistency}
      />
      <Show when={answer()}>
        {(answer) => (
          <p class="stir-answer" role="status">
            <strong>{answer().head}</strong>
            <span>{answer().body}</span>
          </p>
        )}
      </Show>
    </section>
  );
}
