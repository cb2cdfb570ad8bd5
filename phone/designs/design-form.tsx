import { Index, Show } from "solid-js";
import { longestOf, rangeOf } from "#shared/fields.ts";
import { asId, type DesignId, type IcingId } from "#shared/ids.ts";
import { sortedByName } from "#shared/collections.ts";
import { type Consistency, Design } from "#shared/kitchen/model/vocabulary.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { createDraft } from "#phone/ui/draft.ts";
import { TextField } from "#phone/ui/fields.tsx";
import { Form } from "#phone/ui/form.tsx";
import { LengthField } from "#phone/ui/number-field.tsx";
import {
  type DesignDraft,
  inConsistency,
  type LayerDraft,
  usualLayer,
  withoutLayer,
} from "./design-draft.ts";
import { LayerFields } from "./layer-fields.tsx";

/** A design: its size and its layers in order, each with what it lies against and waits for. */
export function DesignForm(props: { design: Design | undefined; onDone: () => void }) {
  const { board, act, newId, words } = usePhone();
  const text = () => words().designs;
  const { entries } = Design;
  const nameOf = (consistency: Consistency): string => text().consistencies[consistency].name;
  const fresh = (consistency: Consistency): LayerDraft => {
    const [icing] = sortedByName(board.kitchen().icings);
    return usualLayer(consistency, icing?.id ?? asId<IcingId>(""), nameOf);
  };
  const opened: DesignDraft = props.design ?? {
    id: asId<DesignId>(newId()),
    name: "",
    sizeMm: 80,
    layers: [fresh("outline"), fresh("flood")],
  };
  const { draft, set, changesOn } = createDraft(opened);
  const layers = (): readonly LayerDraft[] => draft.layers ?? [];
  function save(): void {
    // Its fields see to it that nothing is missing.
    const design = changesOn(props.design) as Design;
    if (act({ type: "put-design", design }, words().forms.saved(design.name.trim()))) props.onDone();
  }
  function remove(): void {
    const { id, name } = opened;
    if (act({ type: "remove-design", designId: id }, words().forms.removed(name))) props.onDone();
  }
  return (
    <Form
      onSave={save}
      onRemove={props.design === undefined ? undefined : remove}
      onLeave={() => props.onDone()}
    >
      <TextField
        label={text().name}
        value={draft.name ?? ""}
        schema={entries.name}
        onInput={(name) => set("name", name)}
      />
      <LengthField
        label={text().size}
        valueMm={draft.sizeMm}
        {...rangeOf(entries.sizeMm)}
        onChange={(sizeMm) => set("sizeMm", sizeMm)}
      />
      <Index each={layers()}>
        {(layer, k) => (
          <LayerFields
            layers={layers()}
            layer={k}
            draft={layer()}
            onChange={(change) => set("layers", k, change)}
            onConsistency={(consistency) =>
              set("layers", layers().with(k, inConsistency(layer(), consistency, nameOf)))
            }
            onRemove={() => set("layers", withoutLayer(layers(), k))}
          />
        )}
      </Index>
      <Show when={layers().length < longestOf(entries.layers)}>
        <button type="button" class="plain wide" onClick={() => set("layers", [...layers(), fresh("flood")])}>
          {text().addLayer}
        </button>
      </Show>
    </Form>
  );
}
