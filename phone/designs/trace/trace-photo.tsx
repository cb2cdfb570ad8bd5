import { Show, createMemo, createSignal, onCleanup, onMount } from "solid-js";
import { DRAWING_LIMITS } from "#shared/drawing/drawing.ts";
import type { TracedPhoto } from "#phone/app/photos.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { Choice } from "#phone/ui/plain-field.tsx";
import { FaultText } from "#phone/ui/fault-text.tsx";
import { LengthField } from "#phone/ui/number-field.tsx";
import { type Drawn, DrawnChoice } from "#phone/designs/drawn-choice.tsx";
import {
  addPoint,
  amend,
  bendPoint,
  canClose,
  closeShape,
  deletePoint,
  deleteShape,
  drawingOf,
  movePoint,
  NO_TRACE,
  openShape,
  record,
  redo,
  type ShapeKind,
  type Trace,
  type TraceFault,
  undo,
} from "./trace.ts";
import { TraceCanvas } from "./trace-canvas.tsx";
import { type ViewBox, wholeOf, zoomed } from "./view-box.ts";

const KINDS = ["outline", "area", "line"] as const satisfies readonly ShapeKind[];
const WIDTH_MM = 80;

/** A photo under the drawing: points are placed on it around the cookie, around areas and along lines. */
export function TracePhoto(props: { designId: string; onDrawn: (drawn: Drawn) => void }) {
  const { photos, words } = usePhone();
  const text = () => words().newDesign.photo;
  const [photo, setPhoto] = createSignal<TracedPhoto>();
  const [fault, setFault] = createSignal<string>();
  onMount(() => {
    void photos.kept(props.designId).then((kept) => kept !== undefined && setPhoto(kept));
  });
  async function take(file: File | undefined): Promise<void> {
    if (file === undefined) return;
    const scaled = await photos.scaled(file);
    setFault(scaled === undefined ? text().notPicture : undefined);
    if (scaled !== undefined) setPhoto({ ...scaled, trace: JSON.stringify(NO_TRACE.now) });
  }
  return (
    <div class="form">
      <h2>{text().title}</h2>
      <p class="note">{text().stays}</p>
      <label class="file-drop">
        {photo() === undefined ? text().pick : text().another}
        <input type="file" accept="image/*" onChange={(event) => void take(event.currentTarget.files?.[0])} />
      </label>
      <FaultText text={fault()} />
      <Show when={photo()} keyed>
        {(photo) => <Tracing {...props} photo={photo} />}
      </Show>
    </div>
  );
}

/** A trace that was kept; nothing of one that cannot be read. */
function keptTrace({ trace }: TracedPhoto): Trace {
  const kept = JSON.parse(trace) as Partial<Trace>;
  return { shapes: kept.shapes ?? [] };
}

function Tracing(props: { designId: string; photo: TracedPhoto; onDrawn: (drawn: Drawn) => void }) {
  const { photos, words } = usePhone();
  const text = () => words().newDesign.photo;
  const address = URL.createObjectURL(props.photo.jpeg);
  onCleanup(() => URL.revokeObjectURL(address));
  const [history, setHistory] = createSignal({ ...NO_TRACE, now: keptTrace(props.photo) });
  const trace = (): Trace => history().now;
  const [kind, setKind] = createSignal<ShapeKind>(
    trace().shapes.some((shape) => shape.kind === "outline") ? "area" : "outline",
  );
  const [isCurved, setCurved] = createSignal(true);
  const [view, setView] = createSignal<ViewBox>(wholeOf(props.photo));
  const [widthMm, setWidthMm] = createSignal<number | undefined>(WIDTH_MM);
  const [isTried, setTried] = createSignal(false);
  const change = (next: (trace: Trace) => Trace): void => {
    const after = next(trace());
    if (after !== trace()) setHistory(record(history(), after));
  };
  const middle = () => ({ x: view().x + view().width / 2, y: view().y + view().height / 2 });
  const isOutlined = (): boolean =>
    trace().shapes.some((shape) => shape.kind === "outline" && shape.isClosed);
  const drawn = createMemo(() => drawingOf(trace(), widthMm() ?? WIDTH_MM));
  const say = (fault: TraceFault): string => {
    if (fault.code === "no outline") return text().noOutline;
    return fault.code === "too few" ? text().tooFew[fault.kind] : words().drawings.fault(fault);
  };
  const fault = (): string | undefined => {
    const one = drawn();
    // Before the outline is closed nothing is wrong yet.
    return one.ok || (!isOutlined() && !isTried()) ? undefined : say(one.refusal);
  };
  const drawing = () => {
    const one = drawn();
    return one.ok ? one.value : undefined;
  };
  function close(): void {
    setTried(true);
    const own = openShape(trace());
    if (own === undefined || !canClose(own)) return;
    change(closeShape);
    if (own.kind === "outline") setKind("area");
    setTried(false);
  }
  function choose(shape: number, point: number): void {
    const own = openShape(trace());
    // The first point once more closes what is being drawn.
    if (own !== undefined && trace().shape === shape && point === 0 && canClose(own)) return close();
    setHistory(amend(history(), { ...trace(), shape, point }));
    const chosen = trace().shapes[shape];
    if (chosen?.isClosed === false) setKind(chosen.kind);
  }
  const point = () => {
    const { shapes, shape, point } = trace();
    return shape === undefined || point === undefined ? undefined : shapes[shape]?.points[point];
  };
  async function use(): Promise<void> {
    const one = drawing();
    if (one === undefined) return;
    await photos.keep(props.designId, { ...props.photo, trace: JSON.stringify({ shapes: trace().shapes }) });
    props.onDrawn({ drawing: one, name: "" });
  }
  return (
    <>
      <Choice
        label={text().draw}
        value={kind()}
        options={KINDS.map((value) => ({ value, name: text().modes[value] }))}
        onChange={(next) => {
          setKind(next);
          change((now) =>
            openShape(now) !== undefined && openShape(now)?.kind !== next ? closeShape(now) : now,
          );
        }}
      />
      <p class="note">
        {text().how[kind()]} {text().how.move}
      </p>
      <TraceCanvas
        address={address}
        size={props.photo}
        view={view()}
        trace={trace()}
        onView={setView}
        onPlace={(at) => {
          setTried(false);
          change((now) => addPoint(now, kind(), { ...at, isCurved: isCurved() }));
        }}
        onChoose={choose}
        onMove={(shape, own, to, isFirst) => {
          const next = movePoint(trace(), shape, own, to);
          setHistory(isFirst ? record(history(), next) : amend(history(), next));
        }}
        onDelete={() => change(deletePoint)}
      />
      <div class="choices trace-acts">
        <button type="button" disabled={openShape(trace()) === undefined} onClick={close}>
          {kind() === "line" ? text().done : text().close}
        </button>
        <button
          type="button"
          disabled={history().past.length === 0}
          onClick={() => setHistory(undo(history()))}
        >
          {text().undo}
        </button>
        <button
          type="button"
          disabled={history().future.length === 0}
          onClick={() => setHistory(redo(history()))}
        >
          {text().redo}
        </button>
        <button
          type="button"
          aria-pressed={point()?.isCurved ?? isCurved()}
          onClick={() => {
            if (point() !== undefined) change(bendPoint);
            setCurved(point()?.isCurved ?? !isCurved());
          }}
        >
          {(point()?.isCurved ?? isCurved()) ? text().curved : text().straight}
        </button>
        <button type="button" disabled={point() === undefined} onClick={() => change(deletePoint)}>
          {text().deletePoint}
        </button>
        <button type="button" disabled={trace().shape === undefined} onClick={() => change(deleteShape)}>
          {text().deleteShape}
        </button>
        <button type="button" onClick={() => setView(zoomed(view(), props.photo, 1.5, middle()))}>
          {text().zoomIn}
        </button>
        <button type="button" onClick={() => setView(zoomed(view(), props.photo, 1 / 1.5, middle()))}>
          {text().zoomOut}
        </button>
      </div>
      <LengthField
        label={text().sizeFirst}
        valueMm={widthMm()}
        {...DRAWING_LIMITS.sizeMm}
        onChange={(mm) => setWidthMm(mm)}
      />
      <DrawnChoice
        drawing={widthMm() === undefined ? undefined : drawing()}
        fault={fault()}
        onUse={() => void use()}
      />
    </>
  );
}
