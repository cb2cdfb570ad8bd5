import { createMemo, For, Show } from "solid-js";
import type { Accessor, JSX } from "solid-js";
import { LANES } from "#display/model/coming-in.ts";
import { draw, type LaneRoom } from "#display/model/pill-packing.ts";
import { AXIS_TICKS_MIN, axisPlace, type BoxCover } from "#display/model/time-axis.ts";
import type { WallLayout } from "#display/model/wall-layout.ts";
import { useWords } from "#shared/client/screen/language.ts";
import type { Words } from "#shared/words/words.ts";
import { laneRoom, type LaneShown, type PlacedPill } from "#display/model/wall-lanes.ts";
import type { WallShown } from "#display/model/wall-view.ts";

export interface ComingProps {
  shown: WallShown;
  layout: WallLayout;
  nowMs: Accessor<number>;
  isStale: boolean;
  /** A bench that can be touched opens a pill's next act. */
  onOpen?: ((pill: PlacedPill) => void) | undefined;
}

/** The time axis and its lanes. */
export function Coming(props: ComingProps): JSX.Element {
  const words = useWords();
  return (
    <section class="coming" aria-label={words().wall.coming}>
      <h2 class="heading">
        <span>
          {words().wall.coming}{" "}
          <span class="soft">· {props.isStale ? words().wall.comingStale : words().wall.comingLegend}</span>
        </span>
        <span class="axis-end">{words().wall.tomorrow}</span>
      </h2>
      <div class="axis" aria-hidden="true">
        <For each={ticksFor(words(), props.layout)}>
          {(tick) => (
            <span class="tick" style={{ left: `${axisPlace(tick.atMin) * 100}%` }}>
              {tick.label}
            </span>
          )}
        </For>
      </div>
      <div class="lanes">
        <div class="rules" aria-hidden="true">
          <For each={AXIS_TICKS_MIN}>{(atMin) => <i style={{ left: `${axisPlace(atMin) * 100}%` }} />}</For>
        </div>
        <For each={LANES}>
          {(lane) => (
            <div class="lane" data-lane={lane} style={{ "--rows": props.shown.lanes[lane].rows }}>
              <LaneName
                name={words().wall.lanes[lane].name}
                hint={words().wall.lanes[lane].hint}
                left={props.shown.lanes[lane].left}
                lines={(props.layout.row * props.shown.lanes[lane].rows) / (props.layout.second * 1.15)}
                letters={props.layout.laneLabel / (props.layout.second * 0.53)}
              />
              <LanePills shown={props.shown.lanes[lane]} coming={props} />
            </div>
          )}
        </For>
      </div>
    </section>
  );
}

/** A lane's name; under it, where there are lines for it, what it means, or how many trays found no row. */
function LaneName(props: {
  name: string;
  hint: string;
  left: number;
  lines: number;
  letters: number;
}): JSX.Element {
  const words = useWords();
  const isInline = (): boolean => props.lines < 2.2;
  const below = (): string => {
    if (props.left > 0) return isInline() ? ` +${props.left}` : words().wall.more(props.left);
    return props.lines >= 1 + Math.ceil(props.hint.length / props.letters) ? props.hint : "";
  };
  return (
    <h3 class="lane-name">
      {props.name}
      <Show when={below()}>
        {(text) => (
          <small classList={{ soft: props.left === 0 }} data-left={props.left > 0} data-inline={isInline()}>
            {text()}
          </small>
        )}
      </Show>
    </h3>
  );
}

/** The last mark's label has its own line; of the others those that stand clear of each other. */
function ticksFor(
  { wall }: Words,
  { axis, second }: WallLayout,
): readonly { atMin: number; label: string }[] {
  let freeFromPx = 0;
  const ticks = AXIS_TICKS_MIN.slice(0, -1).map((atMin) => ({
    atMin,
    label: atMin === 0 ? wall.now : wall.inMinutes(atMin),
  }));
  return ticks.filter((tick) => {
    const labelPx = tick.label.length * 0.56 * second;
    const startPx = axisPlace(tick.atMin) * axis - (tick.atMin === 0 ? 0 : labelPx / 2);
    if (startPx < freeFromPx) return false;
    freeFromPx = startPx + labelPx + second * 0.6;
    return true;
  });
}

function LanePills(props: { shown: LaneShown; coming: ComingProps }): JSX.Element {
  const words = useWords();
  const room = createMemo(() => laneRoom(words(), props.coming.layout, props.shown.rows));
  return (
    <div class="track">
      <For each={props.shown.pills}>
        {(pill) => <PillBox pill={pill} cover={props.shown.cover} room={room()} coming={props.coming} />}
      </For>
    </div>
  );
}

/** Whole and half pixels: finer moves would be drawn for nothing. */
const half = (px: number): number => Math.round(px * 2) / 2;

function PillBox(props: {
  pill: PlacedPill;
  cover: BoxCover;
  room: LaneRoom;
  coming: ComingProps;
}): JSX.Element {
  const words = useWords();
  const box = createMemo(() => draw(props.pill, props.coming.nowMs(), props.room, props.cover));
  const left = createMemo(() => half(box().leftPx));
  const width = createMemo(() => Math.round(box().widthPx));
  const mark = createMemo(() => half(box().markPx - box().leftPx));
  const bandFrom = createMemo(() => half(box().fromPx - box().leftPx));
  const bandWidth = createMemo(() => Math.round(box().toPx - box().fromPx));
  const y = (): number => props.pill.row * props.coming.layout.row;
  const word = createMemo(() => {
    const { countFromMs, note } = props.pill;
    if (countFromMs === undefined) return note && words().wall.pill[note];
    return props.coming.isStale ? "" : words().format.stopwatch((props.coming.nowMs() - countFromMs) / 1000);
  });
  const hasTime = (): boolean => props.pill.is === undefined;
  return (
    <>
      <Show when={hasTime() && props.cover === "mark"}>
        <i
          class="whisker"
          style={{ transform: `translate(${half(box().fromPx)}px, ${y()}px)`, width: `${bandWidth()}px` }}
          aria-hidden="true"
        />
      </Show>
      <div
        class="pill"
        data-is={props.pill.is}
        data-overdue={props.pill.isOverdue}
        data-moved={props.pill.note === "later" || props.pill.note === "sooner"}
        role={props.coming.onOpen && "button"}
        tabIndex={props.coming.onOpen && 0}
        onClick={() => props.coming.onOpen?.(props.pill)}
        style={{ transform: `translate(${left()}px, ${y()}px)`, width: `${width()}px` }}
      >
        <b>{props.pill.label}</b>
        <Show when={word()}>{(word) => <small>{word()}</small>}</Show>
        <Show when={hasTime()}>
          <i
            class="band"
            style={{ transform: `translateX(${bandFrom()}px)`, width: `${bandWidth()}px` }}
            aria-hidden="true"
          />
          <i class="mark" style={{ transform: `translateX(${mark()}px)` }} aria-hidden="true" />
        </Show>
      </div>
    </>
  );
}
