import { Index, Show, createMemo, createSignal } from "solid-js";
import { Cookie } from "#shared/client/cookie/cookie.tsx";
import { sortedByName } from "#shared/collections.ts";
import type { Drawing } from "#shared/drawing/drawing.ts";
import { measureDrawing } from "#shared/drawing/measures.ts";
import { longestOf, parse, rangeOf } from "#shared/fields.ts";
import { asId, type IcingId } from "#shared/ids.ts";
import { coveredBy, measuredLayers, type MeasuredDrawing } from "#shared/kitchen/drawn/measured.ts";
import { resized, sizeOf } from "#shared/kitchen/drawn/resized.ts";
import { type Consistency, Design } from "#shared/kitchen/model/vocabulary.ts";
import { finishedCookie } from "#shared/kitchen/tray/cookie-picture.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { createDraft } from "#phone/ui/draft.ts";
import { TextField } from "#phone/ui/fields.tsx";
import { type Fault, Form } from "#phone/ui/form.tsx";
import { LengthField } from "#phone/ui/number-field.tsx";
import { DesignActs } from "./design-acts.tsx";
import {
  type DesignDraft,
  inConsistency,
  type LayerDraft,
  movedUp,
  onDrawing,
  usualLayer,
  withoutLayer,
} from "./design-draft.ts";
import { DesignPhoto } from "./design-photo.tsx";
import { designSize } from "./designs.tsx";
import { DrawingSources } from "./drawing-sources.tsx";
import { LayerLine } from "./layer-line.tsx";
import { TrayToday } from "./tray-today.tsx";

/** A design: its drawing, its size and its layers in order, and what a tray of it comes to. */
export function DesignForm(props: {
  design: Design | undefined;
  /** What a new one begins with. */
  first?: DesignDraft;
  onDone: (id?: string) => void;
}) {
  const { board, act, words } = usePhone();
  const text = () => words().designs;
  const { entries } = Design;
  const nameOf = (consistency: Consistency): string => text().consistencies[consistency].name;
  const opened = (props.design ?? props.first) as DesignDraft;
  const { draft, set, changesOn } = createDraft(opened);
  const layers = (): readonly LayerDraft[] => draft.layers ?? [];
  /** As it was drawn: sizes are made from it, so that none rounds another. */
  let drawn = opened.drawing;
  const measured = createMemo((): MeasuredDrawing | undefined => {
    const drawing = draft.drawing && copyOf(draft.drawing);
    return drawing && { drawing, measures: measureDrawing(drawing) };
  });
  const [openLayer, setOpenLayer] = createSignal<number>();
  const [fault, setFault] = createSignal<Fault>();
  const [isRedrawing, setRedrawing] = createSignal(false);
  const [note, setNote] = createSignal<string>();
  const shown = createMemo(() => copyOf({ ...draft, sizeMm: draft.sizeMm ?? opened.sizeMm }) as Design);
  /** As it could be saved. */
  const whole = createMemo(() => {
    const parsed = parse(Design, { ...shown(), name: shown().name?.trim() === "" ? "?" : shown().name });
    return parsed.ok ? parsed.value : undefined;
  });

  function setLayers(next: readonly LayerDraft[]): void {
    const now = measured();
    set("layers", now === undefined ? [...next] : measuredLayers(now, copyOf(next)));
    setFault(undefined);
  }
  function resize(sizeMm: number | undefined): void {
    set("sizeMm", sizeMm);
    setFault(undefined);
    if (sizeMm === undefined || drawn === undefined) return;
    const made = resized(drawn, sizeMm);
    if (!made.ok) return void setFault({ message: words().drawings.fault(made.refusal), field: text().size });
    set("drawing", made.value);
    setLayers(layers());
  }
  function redraw(drawing: Drawing): void {
    drawn = drawing;
    setRedrawing(false);
    set("drawing", drawing);
    set("sizeMm", Math.round(sizeOf(drawing) * 10) / 10);
    set("layers", onDrawing(measured()!, copyOf(layers())));
    setNote(text().drawingChanged);
  }
  function addLayer(): void {
    const [icing] = sortedByName(board.kitchen().icings);
    const fresh = usualLayer("flood", icing?.id ?? asId<IcingId>(""), nameOf);
    setLayers([
      ...layers(),
      measured() === undefined ? fresh : { ...fresh, covers: { areas: [], lines: [] } },
    ]);
    setOpenLayer(layers().length - 1);
  }
  function save(): void {
    if (fault()?.field !== undefined) return;
    const bare =
      draft.drawing === undefined ? -1 : layers().findIndex((layer) => coveredBy(layer).length === 0);
    if (bare >= 0) {
      setOpenLayer(bare);
      return void setFault({ message: text().coversNothing(bare) });
    }
    setFault(undefined);
    // Its fields see to it that nothing is missing.
    const design = changesOn(props.design) as Design;
    if (act({ type: "put-design", design }, words().forms.saved(design.name.trim()))) props.onDone(design.id);
  }

  return (
    <>
      <Cookie class="design-picture" point={finishedCookie(shown())} icings={board.kitchen().icings} />
      <h1 class="design-title">
        {words().format.name(draft.name ?? "")} <small>{designSize(words, shown())}</small>
      </h1>
      <Show when={props.design?.isArchived === true}>
        <p class="note">{text().isArchived}</p>
      </Show>
      <Show when={isRedrawing()}>
        <DrawingSources
          designId={opened.id}
          onDrawn={({ drawing }) => redraw(drawing)}
          onLeave={() => setRedrawing(false)}
        />
      </Show>
      <Form isBare fault={fault()} onSave={save} onLeave={() => props.onDone()}>
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
          onChange={resize}
        />
        <h2>{text().layersInOrder}</h2>
        <Show
          when={draft.drawing === undefined}
          fallback={<Show when={note()}>{(said) => <p class="note">{said()}</p>}</Show>}
        >
          <p class="note">{text().noDrawing}</p>
        </Show>
        <div class="design-layers">
          <Index each={layers()}>
            {(layer, k) => (
              <LayerLine
                layers={layers()}
                layer={k}
                draft={layer()}
                measured={measured()}
                isOpen={openLayer() === k}
                onOpen={(isOpen) => setOpenLayer((now) => (isOpen ? k : now === k ? undefined : now))}
                onChange={(change) => set("layers", k, change)}
                onMeasure={(change) => setLayers(layers().with(k, { ...layer(), ...change }))}
                onConsistency={(consistency) =>
                  setLayers(layers().with(k, inConsistency(copyOf(layer()), consistency, nameOf)))
                }
                onMoveUp={(which) => {
                  setLayers(movedUp(copyOf(layers()), which));
                  setOpenLayer((now) => (now === which ? which - 1 : which));
                }}
                onRemove={() => {
                  setLayers(withoutLayer(copyOf(layers()), k));
                  setOpenLayer(undefined);
                }}
              />
            )}
          </Index>
        </div>
        <div class="choices">
          <Show when={layers().length < longestOf(entries.layers)}>
            <button type="button" onClick={addLayer}>
              {text().addLayer}
            </button>
          </Show>
          <button type="button" onClick={() => setRedrawing(true)}>
            {draft.drawing === undefined ? text().addDrawing : text().changeDrawing}
          </button>
        </div>
        <TrayToday design={whole()} />
      </Form>
      <DesignPhoto designId={opened.id} name={draft.name ?? ""} isSaved={props.design !== undefined} />
      <Show when={props.design}>{(design) => <DesignActs design={design()} onDone={props.onDone} />}</Show>
    </>
  );
}

/** Of what is kept as JSON: what of it hangs on the draft is then followed. */
const copyOf = <Value,>(value: Value): Value => JSON.parse(JSON.stringify(value)) as Value;
