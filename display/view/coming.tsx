import { createMemo, For, Index, Show } from "solid-js";
import type { JSX } from "solid-js";
import type { AxisMarks } from "#display/model/axis-marks.ts";
import { type Lane, LANES } from "#display/model/coming-in.ts";
import { AXIS_TICKS_MIN, axisPlace, boxOf } from "#display/model/time-axis.ts";
import type { LaneShown, PlacedPill } from "#display/model/wall-lanes.ts";
import type { WallView } from "#display/model/wall-view.ts";
import { Cookie } from "#shared/client/cookie/cookie.tsx";
import { MIN_MS } from "#shared/time.ts";
import { useWords } from "#shared/client/screen/language.ts";

/** The time axis and its lanes. The last mark's label has a line of its own. */
export function Coming(props: { view: WallView }): JSX.Element {
  const words = useWords();
  const wall = () => words().wall;
  const place = (atMin: number) => ({ left: `${axisPlace(atMin) * 100}%` });
  const legend = (): string => {
    const { comingStale, comingLegend, closedHours } = wall();
    if (props.view.isStale()) return comingStale;
    return props.view.marks().closed.length > 0 ? `${comingLegend} · ${closedHours}` : comingLegend;
  };
  return (
    <section class="coming" aria-label={wall().coming}>
      <h2 class="heading">
        <span>
          {wall().coming} <span class="soft">· {legend()}</span>
        </span>
        <span class="axis-end">{wall().tomorrow}</span>
      </h2>
      <div class="axis" aria-hidden="true">
        <For each={AXIS_TICKS_MIN.slice(0, -1)}>
          {(atMin) => (
            <span class="tick" style={place(atMin)}>
              {atMin === 0 ? wall().now : wall().inMinutes(atMin)}
            </span>
          )}
        </For>
      </div>
      <div class="lanes">
        <div class="rules" aria-hidden="true">
          <For each={props.view.marks().closed}>{(spell) => <Closed spell={spell} view={props.view} />}</For>
          <For each={AXIS_TICKS_MIN}>{(atMin) => <i style={place(atMin)} />}</For>
          <Index each={props.view.flags()}>
            {(flag) => <i class="pole" style={{ left: `${flag().polePx}px` }} />}
          </Index>
        </div>
        <For each={LANES}>{(lane) => <LaneRow lane={lane} view={props.view} />}</For>
        <div class="flags">
          <Index each={props.view.flags()}>
            {(flag) => (
              <Show when={flag().label}>
                {(label) => (
                  <b
                    class="flag"
                    style={{
                      left: `${label().fromPx}px`,
                      top: `${label().row * props.view.layout().flagLine}px`,
                    }}
                  >
                    {label().words}
                  </b>
                )}
              </Show>
            )}
          </Index>
        </div>
      </div>
    </section>
  );
}

/** Hours in which the kitchen is closed, in whole pixels: a second moves few of them. */
function Closed(props: { spell: AxisMarks["closed"][number]; view: WallView }): JSX.Element {
  const at = (atMs: number): number =>
    Math.round(props.view.layout().axis * axisPlace((atMs - props.view.nowMs()) / MIN_MS));
  const from = createMemo(() => at(props.spell.fromMs));
  const width = createMemo(() => at(props.spell.toMs) - from());
  return <i class="closed" style={{ left: `${from()}px`, width: `${width()}px` }} />;
}

/** A lane's pills beside its name; under that, where there is room for it, what it means, or how many trays found no row. */
function LaneRow(props: { lane: Lane; view: WallView }): JSX.Element {
  const words = useWords();
  const lane = (): LaneShown => props.view.shown.lanes[props.lane];
  const isLow = (): boolean => {
    const { row, second } = props.view.layout();
    return row * lane().rows < 2.5 * second;
  };
  return (
    <div class="lane" data-lane={props.lane} hidden={lane().rows === 0} style={{ "--rows": lane().rows }}>
      <h3 class="lane-name" data-low={lane().left > 0 && isLow()}>
        <span>{words().wall.lanes[props.lane].name}</span>
        <Show
          when={lane().left > 0}
          fallback={<small class="soft">{words().wall.lanes[props.lane].hint}</small>}
        >
          <small data-left="true">{isLow() ? `+${lane().left}` : words().wall.more(lane().left)}</small>
        </Show>
      </h3>
      <div class="track">
        <For each={lane().pills}>{(pill) => <PillBox pill={pill} lane={lane()} view={props.view} />}</For>
      </div>
    </div>
  );
}

/** Whole and half pixels: finer moves would be drawn for nothing. */
const half = (px: number): number => Math.round(px * 2) / 2;

function PillBox(props: { pill: PlacedPill; lane: LaneShown; view: WallView }): JSX.Element {
  const words = useWords();
  const box = createMemo(() =>
    boxOf(props.pill, props.view.nowMs(), props.view.layout().axis, props.pill.leastPx, props.lane.cover),
  );
  const left = createMemo(() => half(box().leftPx));
  const width = createMemo(() => Math.round(box().widthPx));
  const mark = createMemo(() => half(box().markPx - box().leftPx));
  const bandFrom = createMemo(() => half(box().fromPx - box().leftPx));
  const bandWidth = createMemo(() => Math.round(box().toPx - box().fromPx));
  const at = (x: number): string => `translate(${x}px, ${props.pill.row * props.view.layout().row}px)`;
  const word = createMemo(() => {
    const { countFromMs, note } = props.pill;
    if (countFromMs === undefined) return note && words().wall.pill[note];
    return props.view.isStale() ? "" : words().format.stopwatch((props.view.nowMs() - countFromMs) / 1000);
  });
  const hasTime = (): boolean => props.pill.is === undefined;
  /** Drawn beside the numbers where the pill is wide enough as it is. */
  const cookie = createMemo(() => {
    const { unit, pillHeight } = props.view.layout();
    if (width() < props.pill.leastPx + pillHeight - 2 * unit) return undefined;
    const design = props.view.board.kitchen().designs[props.pill.designId];
    return design && { design, laid: props.pill.laid };
  });
  return (
    <>
      <Show when={hasTime() && props.lane.cover === "mark"}>
        <i
          class="whisker"
          style={{ transform: at(half(box().fromPx)), width: `${bandWidth()}px` }}
          aria-hidden="true"
        />
      </Show>
      <div
        class="pill"
        data-is={props.pill.is}
        data-overdue={props.pill.isOverdue}
        data-moved={props.pill.note === "later" || props.pill.note === "sooner"}
        role={props.view.onOpen && "button"}
        tabIndex={props.view.onOpen && 0}
        onClick={() => props.view.onOpen?.(props.pill)}
        style={{ transform: at(left()), width: `${width()}px` }}
      >
        <Show when={cookie()}>
          {(point) => <Cookie point={point()} icings={props.view.board.kitchen().icings} />}
        </Show>
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
