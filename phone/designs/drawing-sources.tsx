import { For, Match, Show, Switch, createSignal, onCleanup } from "solid-js";
import { Cookie } from "#shared/client/cookie/cookie.tsx";
import { measureDrawing } from "#shared/drawing/measures.ts";
import { TEMPLATE_NAMES, type TemplateName, TEMPLATES } from "#shared/drawing/templates/templates.ts";
import { asId, type DesignId } from "#shared/ids.ts";
import type { MeasuredDrawing } from "#shared/kitchen/drawn/measured.ts";
import { resized, sizeOf } from "#shared/kitchen/drawn/resized.ts";
import { usualLayers } from "#shared/kitchen/drawn/usual-layers.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";
import { finishedCookie } from "#shared/kitchen/tray/cookie-picture.ts";
import { INCH_MM } from "#shared/units.ts";
import { usePhone } from "#phone/app/phone.tsx";
import type { Drawn } from "./drawn-choice.tsx";
import { ShapeForm } from "./shape-form.tsx";
import { SvgFile } from "./svg-file.tsx";
import { TracePhoto } from "./trace/trace-photo.tsx";

type Source = "templates" | "shape" | "file" | "trace";

/** Where a drawing comes from: a template, a simple shape, an SVG, a photo that is traced. */
export function DrawingSources(props: {
  designId: string;
  onDrawn: (drawn: Drawn) => void;
  onLeave: () => void;
}) {
  const { words } = usePhone();
  const text = () => words().newDesign;
  const [source, setSource] = createSignal<Source>("templates");
  const toTemplates = (): void => void setSource("templates");
  return (
    <section class="drawing-sources">
      <Show when={source() !== "templates"}>
        <button type="button" class="plain" onClick={toTemplates}>
          {text().back}
        </button>
      </Show>
      <Switch fallback={<Templates onDrawn={props.onDrawn} />}>
        <Match when={source() === "shape"}>
          <ShapeForm onDrawn={props.onDrawn} />
        </Match>
        <Match when={source() === "file"}>
          <SvgFile onDrawn={props.onDrawn} />
        </Match>
        <Match when={source() === "trace"}>
          <TracePhoto designId={props.designId} onDrawn={props.onDrawn} />
        </Match>
      </Switch>
      <Show when={source() === "templates"}>
        <h2>{text().otherwise}</h2>
        <div class="choices">
          <For each={["shape", "file", "trace"] as const}>
            {(one) => (
              <button type="button" onClick={() => setSource(one)}>
                {text()[one]}
              </button>
            )}
          </For>
        </div>
        <button type="button" class="plain wide" onClick={() => props.onLeave()}>
          {words().forms.cancel}
        </button>
      </Show>
    </section>
  );
}

/** A template's longest edge at first, mm. */
const SIZE_MM = { metric: 90, us: 3.5 * INCH_MM } as const;

/** Templates as they were drawn and measured: the same for every kitchen. */
const made = new Map<string, MeasuredDrawing>();

function templateOf(name: TemplateName, sizeMm: number): MeasuredDrawing {
  const key = `${name} ${sizeMm}`;
  const known = made.get(key);
  if (known !== undefined) return known;
  const first = TEMPLATES[name]({ widthMm: sizeMm });
  const drawing = first.ok ? resized(first.value, sizeMm) : first;
  if (!drawing.ok) throw new Error(`template ${name}: ${drawing.refusal.code}`);
  const measured = { drawing: drawing.value, measures: measureDrawing(drawing.value) };
  made.set(key, measured);
  return measured;
}

/** Every template as the kitchen would ice it. One is drawn at a time, so that the screen stays free. */
function Templates(props: { onDrawn: (drawn: Drawn) => void }) {
  const { board, timer, units, words } = usePhone();
  const nameOf = (name: TemplateName): string => words().drawings.templates[name];
  const [drawn, setDrawn] = createSignal(0);
  let cancel = timer.after(0, next);
  onCleanup(() => cancel());
  function next(): void {
    const name = TEMPLATE_NAMES[drawn()];
    if (name === undefined) return;
    templateOf(name, SIZE_MM[units()]);
    setDrawn((count) => count + 1);
    cancel = timer.after(0, next);
  }
  const pictured = (name: TemplateName): Design => {
    const measured = templateOf(name, SIZE_MM[units()]);
    return {
      id: asId<DesignId>(name),
      name: nameOf(name),
      sizeMm: sizeOf(measured.drawing),
      layers: usualLayers(measured, board.kitchen().icings, (kind) => kind),
      drawing: measured.drawing,
    };
  };
  return (
    <>
      <h2>{words().newDesign.templates}</h2>
      <ul class="template-grid">
        <For each={TEMPLATE_NAMES}>
          {(name, k) => (
            <li>
              <button
                type="button"
                onClick={() =>
                  props.onDrawn({ drawing: templateOf(name, SIZE_MM[units()]).drawing, name: nameOf(name) })
                }
              >
                <span class="template-picture" aria-hidden="true">
                  <Show when={drawn() > k()}>
                    <Cookie point={finishedCookie(pictured(name))} icings={board.kitchen().icings} />
                  </Show>
                </span>
                {nameOf(name)}
              </button>
            </li>
          )}
        </For>
      </ul>
    </>
  );
}
