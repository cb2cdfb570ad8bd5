import { For, Index, Show, createSignal } from "solid-js";
import { createStore, unwrap } from "solid-js/store";
import { sortedByName } from "#shared/kitchen/model/by-name.ts";
import { asId } from "#shared/ids.ts";
import type { DesignId, IcingId } from "#shared/ids.ts";
import { USUAL_MM } from "#shared/kitchen/forecast/films.ts";
import { longestOf, rangeOf } from "#shared/fields.ts";
import { Design, Layer, Need } from "#shared/kitchen/model/vocabulary.ts";
import type { Consistency } from "#shared/kitchen/model/vocabulary.ts";
import { Choice, Select, TextField } from "#phone/ui/fields.tsx";
import { LengthField, NumberField } from "#phone/ui/number-field.tsx";
import { Form, type Fault } from "#phone/ui/form.tsx";
import { mergeChanges } from "#phone/ui/merge.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { waitWords } from "./design-words.ts";

/** A layer being written: numbers may be missing while they are typed. */
type Draft = {
  [Key in keyof Layer]: Key extends "thicknessMm" | "narrowestMm" ? number | undefined : Layer[Key];
};

const CONSISTENCIES: readonly { value: Consistency; name: string; hint: string }[] = [
  { value: "outline", name: "Outline", hint: "thick, piped" },
  { value: "flood", name: "Flood", hint: "loosest, inside an outline" },
  { value: "top-coat", name: "Top-coat", hint: "no outline, thicker than flood" },
  { value: "detail", name: "Detail", hint: "on top" },
];

/** Practice, no source. */
const USUAL_NARROWEST_MM: Readonly<Record<Consistency, number>> = {
  outline: 2,
  flood: 40,
  "top-coat": 40,
  detail: 3,
};
const nameOf = (consistency: Consistency): string =>
  CONSISTENCIES.find(({ value }) => value === consistency)?.name ?? consistency;

/** What a layer of a consistency is until someone says otherwise. */
const usualOf = (consistency: Consistency) => ({
  name: nameOf(consistency),
  consistency,
  thicknessMm: USUAL_MM[consistency],
  narrowestMm: USUAL_NARROWEST_MM[consistency],
});

/** A layer laid in another consistency: its figures and waits were the old one's; its colour and place in the design stay. */
function inConsistency(layer: Draft, consistency: Consistency): Draft {
  const { areaCm2: _area, waits: _waits, ...rest } = layer;
  const isOwnName = layer.name !== nameOf(layer.consistency);
  return { ...rest, ...usualOf(consistency), ...(isOwnName ? { name: layer.name } : {}) };
}

/** A design: its size and its layers in order, each with what it lies against and waits for. */
export function DesignForm(props: { design: Design | undefined; onDone: () => void }) {
  const { board, act, newId, units } = usePhone();
  const icings = () => sortedByName(board.kitchen().icings);
  const fresh = (consistency: Consistency): Draft => ({
    ...usualOf(consistency),
    icingId: icings()[0]?.id ?? asId<IcingId>(""),
  });
  const [name, setName] = createSignal(props.design?.name ?? "");
  const [sizeMm, setSizeMm] = createSignal<number | undefined>(props.design?.sizeMm ?? 80);
  const [layers, setLayers] = createStore<Draft[]>(
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

  function save(): void {
    if (name().trim() === "")
      return void setFault({ message: "The design's name is missing.", field: "Design's name" });
    if (sizeMm() === undefined) return void setFault({ message: "The cookie's size is missing." });
    if (layers.some((layer) => layer.thicknessMm === undefined || layer.narrowestMm === undefined))
      return void setFault({ message: "Each layer needs its thickness and its smallest section." });
    const design = props.design === undefined ? written() : mergeChanges(props.design, opened, written());
    setFault(undefined);
    if (act({ type: "put-design", design }, `${name().trim()} saved`)) props.onDone();
  }
  /** Taking a layer out moves those above it down: what named it goes, what named later ones is renumbered. */
  const removeLayer = (gone: number): void =>
    setLayers((now) =>
      now
        .filter((_, k) => k !== gone)
        .map((layer): Draft => {
          const { touches, waits, ...rest } = layer;
          const down = (k: number): number => (k > gone ? k - 1 : k);
          return {
            ...rest,
            ...(touches === undefined ? {} : { touches: touches.filter((k) => k !== gone).map(down) }),
            ...(waits === undefined
              ? {}
              : {
                  waits: waits
                    .filter(({ layer }) => layer !== gone)
                    .map(({ layer, need }) => ({ layer: down(layer), need })),
                }),
          };
        }),
    );

  function remove(): void {
    const { design } = props;
    if (design !== undefined && act({ type: "remove-design", designId: design.id }, `${design.name} removed`))
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
        label="Design's name"
        value={name()}
        onInput={setName}
        maxLength={longestOf(Design.entries.name)}
      />
      <LengthField
        label="Cookie, longest edge"
        valueMm={sizeMm()}
        {...rangeOf(Design.entries.sizeMm)}
        units={units()}
        onChange={setSizeMm}
      />
      <Index each={layers}>
        {(layer, k) => (
          <fieldset class="layer-form">
            <legend>Layer {k + 1}</legend>
            <TextField
              label="What it is"
              value={layer().name}
              onInput={(text) => setLayers(k, "name", text)}
              maxLength={longestOf(Layer.entries.name)}
            />
            <Choice
              label="Consistency"
              value={layer().consistency}
              options={CONSISTENCIES}
              onChange={(consistency) =>
                setLayers((now) => now.map((one, at) => (at === k ? inConsistency(one, consistency) : one)))
              }
            />
            <Select
              label="Icing"
              value={layer().icingId}
              options={icings().map(({ id, name }) => ({ value: id, name }))}
              onChange={(id) => setLayers(k, "icingId", asId<IcingId>(id))}
            />
            <LengthField
              label="Thickness of the film"
              valueMm={layer().thicknessMm}
              {...rangeOf(Layer.entries.thicknessMm)}
              units={units()}
              onChange={(mm) => setLayers(k, "thicknessMm", mm)}
            />
            <LengthField
              label="Smallest section, narrowest span"
              valueMm={layer().narrowestMm}
              {...rangeOf(Layer.entries.narrowestMm)}
              units={units()}
              hint="Small sections sink in the middle unless they are set with heat."
              onChange={(mm) => setLayers(k, "narrowestMm", mm)}
            />
            <NumberField
              label="Area a cookie, if known"
              value={layer().areaCm2}
              min={0.1}
              max={2000}
              unit="cm²"
              optional
              hint="For how much icing to mix."
              onChange={(cm2) => setLayers(k, "areaCm2", cm2)}
            />
            <Show when={k > 0}>
              <Waits layers={layers as Layer[]} k={k} onChange={(change) => setLayers(k, change)} />
              <p class="note">
                Layer {k + 1}
                {waitWords(board.kitchen(), { layers: layers as Layer[] }, k)}
              </p>
            </Show>
            <Show when={layers.length > 1}>
              <button type="button" class="small" onClick={() => removeLayer(k)}>
                Remove layer {k + 1}
              </button>
            </Show>
          </fieldset>
        )}
      </Index>
      <Show when={layers.length < 12}>
        <button type="button" class="plain wide" onClick={() => setLayers(layers.length, fresh("flood"))}>
          Add a layer
        </button>
      </Show>
    </Form>
  );
}

/** For each earlier layer: whether this one lies against it, and what it then waits for. */
function Waits(props: {
  layers: readonly Layer[];
  k: number;
  onChange: (change: Pick<Layer, "touches" | "waits">) => void;
}) {
  const own = (): Layer | undefined => props.layers[props.k];
  const touches = (): number[] => own()?.touches ?? Array.from({ length: props.k }, (_, earlier) => earlier);
  const choice = (earlier: number): string => {
    if (!touches().includes(earlier)) return "apart";
    return own()?.waits?.find(({ layer }) => layer === earlier)?.need ?? "usual";
  };
  function choose(earlier: number, chosen: string): void {
    const others = (own()?.waits ?? []).filter(({ layer }) => layer !== earlier);
    const need = Need.options.find((one) => one === chosen);
    props.onChange({
      touches:
        chosen === "apart"
          ? touches().filter((one) => one !== earlier)
          : [...new Set([...touches(), earlier])].toSorted((a, b) => a - b),
      waits: need === undefined ? others : [...others, { layer: earlier, need }],
    });
  }
  return (
    <For each={Array.from({ length: props.k }, (_, earlier) => earlier)}>
      {(earlier) => (
        <Select
          label={`Against layer ${earlier + 1} (${props.layers[earlier]?.name ?? ""})`}
          value={choice(earlier)}
          options={[
            { value: "usual", name: "as usual: another colour waits for the skin" },
            { value: "wet", name: "lay it wet on wet" },
            { value: "skin", name: "wait for the skin" },
            { value: "dry through", name: "wait until dry through" },
            { value: "apart", name: "it does not touch that layer" },
          ]}
          onChange={(chosen) => choose(earlier, chosen)}
        />
      )}
    </For>
  );
}
