import { Show, createMemo, createSignal } from "solid-js";
import { compareNames } from "#shared/kitchen/model/by-name.ts";
import { teaspoonsACup, waterToStirInG } from "#shared/icing/water.ts";
import { waterPctOf } from "#shared/kitchen/forecast/air.ts";
import { basePctOf } from "#shared/kitchen/mixing/icing-needed.ts";
import { waterWords } from "#shared/words/icing.ts";
import { Consistency } from "#shared/kitchen/model/vocabulary.ts";
import { sentence } from "#shared/words/wording.ts";
import { formatMass, formatVolume, tspToMl } from "#shared/units.ts";
import { Choice, Select } from "#phone/ui/fields.tsx";
import { NumberField } from "#phone/ui/number-field.tsx";
import { usePhone } from "#phone/app/phone.tsx";

const KITCHENS = "";

/** Water to stir into base icing, from its weight and its water to the consistency that is wanted. */
export function StirIn() {
  const { board, units } = usePhone();
  const [icingId, setIcingId] = createSignal(KITCHENS);
  const [baseG, setBaseG] = createSignal<number | undefined>(200);
  const [basePct, setBasePct] = createSignal<number | undefined>(basePctOf(board.kitchen(), KITCHENS));
  const [consistency, setConsistency] = createSignal<Consistency>("flood");
  const wantedPct = (of: Consistency): number => waterPctOf(board.kitchen(), icingId(), of);
  const own = createMemo(() =>
    Object.values(board.kitchen().icings)
      .filter(({ waterPct }) => waterPct !== undefined)
      .toSorted(compareNames),
  );
  const told = createMemo(() => {
    const [grams, pct, wanted] = [baseG(), basePct(), wantedPct(consistency())];
    if (grams === undefined || pct === undefined) return undefined;
    if (wanted < pct)
      return {
        head: "No water",
        body: `${sentence(consistency())} holds ${wanted} % here, this base ${pct} % already. Water can't be taken out: stir in stiffer base.`,
      };
    const waterG = waterToStirInG(grams, pct, wanted);
    const comesTo = `It comes to ${formatMass(grams + waterG)} of ${consistency()} at ${wanted} % water.`;
    if (waterG === 0) return { head: "No water: use it as it is", body: comesTo };
    const tspACup = teaspoonsACup(wanted, pct, board.kitchen().settings.densityKgM3);
    const byCup = units() === "us" ? ` ${formatVolume(tspToMl(tspACup), "us")} a cup of base.` : "";
    return { head: `Stir in ${waterWords(waterG, units())} of water`, body: `${comesTo}${byCup}` };
  });
  return (
    <section class="form stir-in not-print">
      <h2>Stir in water</h2>
      <NumberField label="Base icing" value={baseG()} min={1} max={50_000} unit="g" onChange={setBaseG} />
      <NumberField
        label="Water in it"
        value={basePct()}
        min={8}
        max={35}
        unit="% of its mass"
        onChange={setBasePct}
      />
      <Show when={own().length > 0}>
        <Select
          label="Icing"
          value={icingId()}
          options={[
            { value: KITCHENS, name: "any: the kitchen's figures" },
            ...own().map(({ id, name }) => ({ value: id, name })),
          ]}
          onChange={(id) => {
            setIcingId(id);
            setBasePct(basePctOf(board.kitchen(), id));
          }}
        />
      </Show>
      <Choice
        label="Wanted, with its water"
        value={consistency()}
        options={Consistency.options.map((value) => ({
          value,
          name: `${sentence(value)} ${wantedPct(value)}\u00a0%`,
        }))}
        onChange={setConsistency}
      />
      <Show when={told()}>
        {(told) => (
          <p class="stir-answer" role="status">
            <strong>{told().head}</strong>
            <span>{told().body}</span>
          </p>
        )}
      </Show>
    </section>
  );
}
