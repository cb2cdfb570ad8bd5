import { Index, Show, createSignal } from "solid-js";
import { createStore, unwrap } from "solid-js/store";
import { longestOf, rangeOf } from "#shared/fields.ts";
import { asId } from "#shared/ids.ts";
import type { DesignId, IcingId } from "#shared/ids.ts";
import { sortedByName } from "#shared/kitchen/model/by-name.ts";
import { type Consistency, Design, type Layer } from "#shared/kitchen/model/vocabulary.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { TextField } from "#phone/ui/fields.tsx";
import { Form, type Fault } from "#phone/ui/form.tsx";
import { mergeChanges } from "#phone/ui/merge.ts";
import { LengthField } from "#phone/ui/number-field.tsx";
import { inConsistency, type LayerDraft, usualLayer, withoutLayer } from "./layer-draft.ts";
import { LayerFields } from "./layer-fields.tsx";

/** A design: its size and its layers in order, each with what it lies against and waits for. */
export function DesignForm(props: { design: Design | undefined; onDone: () => void }) {
  const { board, act, newId, words } = usePhone();
  const { entries } = Design;
  const nameOf = (consistency: Consistency): string => words().designs.consistencies[consistency].name;
  const fresh = (consistency: Consistency): LayerDraft => {
    const [icing] = sortedByName(board.kitchen().icings);
    return usualLayer(consistency, icing?.id ?? asId<IcingId>(""), nameOf);
  };
  const [name, setName] = createSignal(props.design?.name ?? "");
  const [sizeMm, setSizeMm] = createSignal<number | undefined>(props.design?.sizeMm ?? 80);
  const [layers, setLayers] = createStore<LayerDraft[]>(
    props.design === undefined
      ? [fresh("outline"), fresh("flood")]
      : structuredClone(unwrap(props.design.layers)),
  );
  const [fault, setFault] = createSignal<Fault>();
  const id = props.design?.id ?? asId<DesignId>(newId());
  const written = (): Design => ({
    id,
    name: name(),
    sizeMm: sizeMm() ?? 0,
    layers: structuredClone(unwrap(layers)) as Layer[],
  });
  const opened = written();

  function faultOf(): Fault | undefined {
    const { designs, forms } = words();
    if (name().trim() === "") return { message: forms.missing(designs.name), field: designs.name };
    const isLacking =
      sizeMm() === undefined ||
      layers.some(({ thicknessMm, narrowestMm }) => thicknessMm === undefined || narrowestMm === undefined);
    return isLacking ? { message: forms.checkAbove } : undefined;
  }
  function save(): void {
    setFault(faultOf());
    if (fault() !== undefined) return;
    const design = props.design === undefined ? written() : mergeChanges(props.design, opened, written());
    if (act({ type: "put-design", design }, words().forms.saved(name().trim()))) props.onDone();
  }
  function remove(): void {
    const { design } = props;
    if (design === undefined) return;
    if (act({ type: "remove-design", designId: design.id }, words().forms.removed(design.name)))
      props.onDone();
  }
  return (
    <Form
      fault={fault()}
      onSave={save}
      onRemove={props.design === undefined ? undefined : remove}
      onLeave={() => props.onDone()}
    >
      <TextField
        label={words().designs.name}
        value={name()}
        onInput={setName}
        maxLength={longestOf(entries.name)}
      />
      <LengthField
        label={words().designs.size}
        valueMm={sizeMm()}
        {...rangeOf(entries.sizeMm)}
        onChange={setSizeMm}
      />
      <Index each={layers}>
        {(draft, k) => (
          <LayerFields
            layers={layers}
            layer={k}
            draft={draft()}
            onChange={(change) => setLayers(k, change)}
            onConsistency={(consistency) => {
              const changed = inConsistency(draft(), consistency, nameOf);
              setLayers((now) => now.map((one, at) => (at === k ? changed : one)));
            }}
            onRemove={() => setLayers((now) => withoutLayer(now, k))}
          />
        )}
      </Index>
      <Show when={layers.length < longestOf(entries.layers)}>
        <button type="button" class="plain wide" onClick={() => setLayers(layers.length, fresh("flood"))}>
          {words().designs.addLayer}
        </button>
      </Show>
    </Form>
  );
}
