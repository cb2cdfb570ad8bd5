import { Show } from "solid-js";
import { rangeOf } from "#shared/fields.ts";
import { asId, type IcingId } from "#shared/ids.ts";
import { sortedByName } from "#shared/collections.ts";
import { type Consistency, Layer } from "#shared/kitchen/model/vocabulary.ts";
import { waitsOf } from "#shared/kitchen/tray/layer-waits.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { Choice, Select, TextField } from "#phone/ui/fields.tsx";
import { LengthField, NumberField } from "#phone/ui/number-field.tsx";
import { LayerAgainst } from "./layer-against.tsx";
import type { LayerDraft } from "./design-draft.ts";

const CONSISTENCIES = ["outline", "flood", "top-coat", "detail"] as const satisfies Consistency[];

/** One layer of the design being written. Layers count from 0. */
export function LayerFields(props: {
  layers: readonly LayerDraft[];
  layer: number;
  draft: LayerDraft;
  onChange: (change: Partial<LayerDraft>) => void;
  onConsistency: (consistency: Consistency) => void;
  onRemove: () => void;
}) {
  const { board, words } = usePhone();
  const { entries } = Layer;
  const labels = () => words().designs;
  /** As far as they are written: what touches and waits is known of each. */
  const layers = () => props.layers as Layer[];
  return (
    <fieldset class="layer-form">
      <legend>{labels().layerTitle(props.layer)}</legend>
      <TextField
        label={labels().layerName}
        value={props.draft.name}
        onInput={(name) => props.onChange({ name })}
        schema={entries.name}
      />
      <Choice
        label={labels().consistency}
        value={props.draft.consistency}
        options={CONSISTENCIES.map((value) => ({ value, ...labels().consistencies[value] }))}
        onChange={(consistency) => props.onConsistency(consistency)}
      />
      <Select
        label={labels().icing}
        value={props.draft.icingId}
        options={sortedByName(board.kitchen().icings).map(({ id, name }) => ({ value: id, name }))}
        onChange={(id) => props.onChange({ icingId: asId<IcingId>(id) })}
      />
      <LengthField
        label={labels().thickness}
        valueMm={props.draft.thicknessMm}
        {...rangeOf(entries.thicknessMm)}
        onChange={(thicknessMm) => props.onChange({ thicknessMm })}
      />
      <LengthField
        label={labels().narrowest}
        valueMm={props.draft.narrowestMm}
        {...rangeOf(entries.narrowestMm)}
        hint={labels().narrowestHint}
        onChange={(narrowestMm) => props.onChange({ narrowestMm })}
      />
      <NumberField
        label={labels().area}
        value={props.draft.areaCm2}
        {...rangeOf(entries.areaCm2)}
        optional
        hint={labels().areaHint}
        onChange={(areaCm2) => props.onChange({ areaCm2 })}
      />
      <Show when={props.layer > 0}>
        <LayerAgainst layers={layers()} layer={props.layer} onChange={(change) => props.onChange(change)} />
        <p class="note">
          {labels().layerWaits(props.layer, waitsOf(board.kitchen(), { layers: layers() }, props.layer))}
        </p>
      </Show>
      <Show when={props.layers.length > 1}>
        <button type="button" class="small" onClick={() => props.onRemove()}>
          {labels().removeLayer(props.layer)}
        </button>
      </Show>
    </fieldset>
  );
}
