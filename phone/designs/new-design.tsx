import { Show, createSignal } from "solid-js";
import { sortedByName } from "#shared/collections.ts";
import { measureDrawing } from "#shared/drawing/measures.ts";
import { asId, type DesignId } from "#shared/ids.ts";
import { sizeOf } from "#shared/kitchen/drawn/resized.ts";
import { usualLayers } from "#shared/kitchen/drawn/usual-layers.ts";
import { currentDesigns } from "#shared/kitchen/model/lookups.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { type DesignDraft, freeName } from "./design-draft.ts";
import { DesignForm } from "./design-form.tsx";
import { DrawingSources } from "./drawing-sources.tsx";
import type { Drawn } from "./drawn-choice.tsx";

/** A design from its drawing to its layers: filled in as most cookies are iced, so that it can be saved at once. */
export function NewDesign(props: { onDone: (id?: string) => void }) {
  const { board, newId, photos, words } = usePhone();
  const id = asId<DesignId>(newId());
  const [first, setFirst] = createSignal<DesignDraft>();
  const hasIcing = (): boolean => sortedByName(board.kitchen().icings).length > 0;
  function begin({ drawing, name }: Drawn): void {
    const { icings } = board.kitchen();
    const names = Object.values(currentDesigns(board.kitchen())).map((design) => design.name);
    const measured = { drawing, measures: measureDrawing(drawing) };
    const layers = usualLayers(measured, icings, (kind) => words().designs.consistencies[kind].name);
    setFirst({
      id,
      name: name === "" ? "" : freeName(names, name),
      sizeMm: Math.round(sizeOf(drawing) * 10) / 10,
      layers,
      drawing,
    });
  }
  function done(saved?: string): void {
    // Of a design that is not saved nothing is kept.
    if (saved === undefined) photos.drop(id);
    props.onDone(saved);
  }
  return (
    <Show
      when={first()}
      fallback={
        <>
          <h1>{words().app.titles["new-design"]}</h1>
          <Show when={hasIcing()} fallback={<p class="note">{words().designs.needsIcing}</p>}>
            <DrawingSources designId={id} onDrawn={begin} onLeave={() => done()} />
          </Show>
        </>
      }
    >
      {(first) => <DesignForm design={undefined} first={first()} onDone={done} />}
    </Show>
  );
}
