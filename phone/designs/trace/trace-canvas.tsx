import { For, Show, createSignal } from "solid-js";
import { usePhone } from "#phone/app/phone.tsx";
import type { Trace } from "./trace.ts";
import { shapePath } from "./trace.ts";
import { panned, type Size, type ViewBox, zoomed } from "./view-box.ts";

interface At {
  x: number;
  y: number;
}
type Grip = { is: "point"; shape: number; point: number } | { is: "ground" };

/** A finger that moves less than this still taps, and one this near to a point holds it; screen px. */
const [STILL_PX, HOLD_PX] = [8, 22];
/** How far an arrow key moves the cross, share of what is in sight. */
const STEP = 0.02;

/** The photo with what is drawn over it: taps place points, points are dragged, two fingers or the wheel zoom. */
export function TraceCanvas(props: {
  address: string;
  size: Size;
  view: ViewBox;
  trace: Trace;
  onView: (view: ViewBox) => void;
  onPlace: (at: At) => void;
  onChoose: (shape: number, point: number) => void;
  onMove: (shape: number, point: number, to: At, isFirst: boolean) => void;
  onDelete: () => void;
}) {
  const { words } = usePhone();
  let svg: SVGSVGElement | undefined;
  const fingers = new Map<number, At>();
  let held: { grip: Grip; from: At; hasMoved: boolean } | undefined;
  const [cross, setCross] = createSignal<At>();
  /** Photo pixels to one of the screen. */
  const scale = (): number => props.view.width / Math.max(1, svg?.getBoundingClientRect().width ?? 1);
  function photoAt({ x, y }: At): At {
    const rect = svg!.getBoundingClientRect();
    return { x: props.view.x + (x - rect.left) * scale(), y: props.view.y + (y - rect.top) * scale() };
  }
  const onScreen = (event: PointerEvent | WheelEvent): At => ({ x: event.clientX, y: event.clientY });
  const apart = (a: At, b: At): number => Math.hypot(b.x - a.x, b.y - a.y);
  function gripAt(at: At): Grip {
    const reach = HOLD_PX * scale();
    let best: { grip: Grip; far: number } = { grip: { is: "ground" }, far: reach };
    props.trace.shapes.forEach(({ points }, shape) =>
      points.forEach((one, point) => {
        const far = apart(one, at);
        if (far < best.far) best = { grip: { is: "point", shape, point }, far };
      }),
    );
    return best.grip;
  }
  function down(event: PointerEvent): void {
    const at = onScreen(event);
    fingers.set(event.pointerId, at);
    svg?.setPointerCapture?.(event.pointerId);
    held = fingers.size > 1 ? undefined : { grip: gripAt(photoAt(at)), from: at, hasMoved: false };
  }
  function move(event: PointerEvent): void {
    const before = fingers.get(event.pointerId);
    if (before === undefined) return;
    const at = onScreen(event);
    if (fingers.size === 2) pinch(event.pointerId, before, at);
    fingers.set(event.pointerId, at);
    if (held === undefined) return;
    if (!held.hasMoved && apart(held.from, at) < STILL_PX) return;
    const isFirst = !held.hasMoved;
    held.hasMoved = true;
    const { grip } = held;
    if (grip.is === "point") props.onMove(grip.shape, grip.point, photoAt(at), isFirst);
    else
      props.onView(panned(props.view, props.size, (at.x - before.x) * scale(), (at.y - before.y) * scale()));
  }
  function pinch(id: number, before: At, at: At): void {
    const other = [...fingers].find(([finger]) => finger !== id)?.[1];
    if (other === undefined) return;
    const middle = { x: (at.x + other.x) / 2, y: (at.y + other.y) / 2 };
    const factor = apart(at, other) / Math.max(1, apart(before, other));
    props.onView(zoomed(props.view, props.size, factor, photoAt(middle)));
  }
  function up(event: PointerEvent): void {
    fingers.delete(event.pointerId);
    const own = held;
    held = undefined;
    if (own === undefined || own.hasMoved) return;
    if (own.grip.is === "point") props.onChoose(own.grip.shape, own.grip.point);
    else props.onPlace(photoAt(onScreen(event)));
  }
  function key(event: KeyboardEvent): void {
    const { view } = props;
    const now = cross() ?? { x: view.x + view.width / 2, y: view.y + view.height / 2 };
    const step = STEP * view.width;
    const by = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[event.key];
    if (by !== undefined) setCross({ x: now.x + by[0]! * step, y: now.y + by[1]! * step });
    else if (event.key === "Enter") {
      setCross(now);
      props.onPlace(now);
    } else if (event.key === "Delete" || event.key === "Backspace") props.onDelete();
    else return;
    event.preventDefault();
  }
  return (
    <svg
      ref={svg}
      class="trace-canvas"
      style={{
        // No higher than the window, and of the photo's own shape: a tap's place follows from that.
        width: `min(100%, calc(70dvh * ${props.size.widthPx / props.size.heightPx}))`,
        "aspect-ratio": `${props.size.widthPx} / ${props.size.heightPx}`,
      }}
      viewBox={`${props.view.x} ${props.view.y} ${props.view.width} ${props.view.height}`}
      role="application"
      aria-label={words().newDesign.photo.canvas}
      tabindex="0"
      onPointerDown={down}
      onPointerMove={move}
      onPointerUp={up}
      onPointerCancel={(event) => {
        fingers.delete(event.pointerId);
        held = undefined;
      }}
      onWheel={(event) => {
        event.preventDefault();
        props.onView(zoomed(props.view, props.size, event.deltaY < 0 ? 1.25 : 0.8, photoAt(onScreen(event))));
      }}
      onKeyDown={key}
      onBlur={() => setCross(undefined)}
    >
      <image href={props.address} width={props.size.widthPx} height={props.size.heightPx} />
      <For each={props.trace.shapes}>
        {(shape, k) => (
          <g class="traced" data-kind={shape.kind} data-chosen={props.trace.shape === k()}>
            <path class="halo" d={shapePath(shape)} />
            <path d={shapePath(shape)} />
            <For each={shape.points}>
              {({ x, y, isCurved }, point) => (
                <circle
                  cx={x}
                  cy={y}
                  r={7 * scale()}
                  stroke-width={2.5 * scale()}
                  data-curved={isCurved}
                  data-chosen={props.trace.shape === k() && props.trace.point === point()}
                />
              )}
            </For>
          </g>
        )}
      </For>
      <Show when={cross()}>
        {(at) => (
          <path
            class="cross"
            d={`M${at().x - 12 * scale()} ${at().y}h${24 * scale()}M${at().x} ${at().y - 12 * scale()}v${24 * scale()}`}
          />
        )}
      </Show>
    </svg>
  );
}
