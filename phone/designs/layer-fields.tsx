import { Show } from "solid-js";
import { asId, type IcingId } from "#shared/ids.ts";
import { sortedByName } from "#shared/collections.ts";
import { type Consistency, Layer } from "#shared/kitchen/model/vocabulary.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { Select, TextField } from "#phone/ui/fields.tsx";
import { Choice } from "#phone/ui/plain-field.tsx";
import { LayerAgainst } from "./layer-against.tsx";
import { LayerFigures } from "./layer-figures.tsx";
import type { LayerProps } from "./layer-props.ts";
import { PartPicker } from "./part-picker.tsx";
import { ThicknessField } from "./thickness-field.tsx";

const CONSISTENCIES = ["outline", "flood", "top-coat", "detail"] as const satisfies Consistency[];

/** The fields of a layer, and what moves or removes it. */
export function LayerFields(props: LayerProps & { isOpen: boolean }) {
  const { board, words } = usePhone();
  const { entries } = Layer;
  const labels = () => words().designs;
  return (
    <fieldset class="layer-form">
      <legend class="visually-hidden">{labels().layerTitle(props.layer)}</legend>
      <Show when={props.isOpen && props.measured}>
        {(measured) => (
          <PartPicker
            drawing={measured().drawing}
            layers={props.layers}
            layer={props.layer}
            onChange={(covers) => props.onMeasure({ covers })}
          />
        )}
      </Show>
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
      <ThicknessField
        consistency={props.draft.consistency}
        thicknessMm={props.draft.thicknessMm}
        onChange={(thicknessMm) => props.onChange({ thicknessMm })}
      />
      <LayerFigures {...props} />
      <Show when={props.layer > 0}>
        <LayerAgainst {...props} />
      </Show>
      <TextField
        label={labels().layerName}
        value={props.draft.name}
        onInput={(name) => props.onChange({ name })}
        schema={entries.name}
      />
      <div class="choices">
        <Show when={props.layer > 0}>
          <button
            type="button"
            aria-label={labels().moveUp(props.layer)}
            onClick={() => props.onMoveUp(props.layer)}
          >
            {labels().up}
          </button>
        </Show>
        <Show when={props.layer < props.layers.length - 1}>
          <button
            type="button"
            aria-label={labels().moveDown(props.layer)}
            onClick={() => props.onMoveUp(props.layer + 1)}
          >
            {labels().down}
          </button>
        </Show>
        <Show when={props.layers.length > 1}>
          <button type="button" onClick={() => props.onRemove()}>
            {labels().removeLayer(props.layer)}
          </button>
        </Show>
      </div>
    </fieldset>
  );
}
