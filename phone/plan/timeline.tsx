import { type Accessor, For, type JSX, Show, createMemo, createSignal, onCleanup, onMount } from "solid-js";
import { KeyedFor } from "#shared/client/screen/keyed-for.tsx";
import { closedSpells } from "#shared/kitchen/model/opening-hours.ts";
import { HOUR_MS } from "#shared/time.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { type Axis, hoursIn, hoursOf, type Laid, laidOut, labelPx, pxAt } from "./lanes.ts";
import {
  barOfBoth,
  type Block,
  type Doing,
  type DryBar,
  type PlaceRow,
  severalOf,
  whatStretch,
  type WorkRow,
} from "./rows.ts";
import { createRowWords } from "./row-words.ts";

/** Lanes of a row of acts, and of a place: beyond them what overlaps is one block. */
const [WORK_LANES, PLACE_LANES] = [3, 4];
/** Before the first measure, px. */
const FIRST_WIDTH_PX = 700;
/** Of the hours in sight, how many a step goes along. */
const STEP_SHARE = 0.6;
/** A letter of the words under a block's numbers, px. */
const SMALL_LETTER_PX = 7.5;

/** Who does what when, and where it dries: hours across, a line for now, closed hours hatched. Only what is in sight is drawn. */
export function Timeline(props: { work: readonly WorkRow[]; places: readonly PlaceRow[] }) {
  const { board, words } = usePhone();
  const text = () => words().desk.plan;
  const say = createRowWords();
  const [widthPx, setWidthPx] = createSignal(FIRST_WIDTH_PX);
  const [steps, setSteps] = createSignal(0);
  let scale: HTMLDivElement | undefined;
  onMount(() => {
    if (scale === undefined || !("ResizeObserver" in window)) return;
    const measure = (): void => void (scale.clientWidth > 0 && setWidthPx(scale.clientWidth));
    const observer = new ResizeObserver(measure);
    observer.observe(scale);
    measure();
    onCleanup(() => observer.disconnect());
  });
  const isWithin = (laid: Laid<Block>): boolean => laid.ownPx > textPx(say.doing(laid.item));
  const hours = () => hoursIn(widthPx());
  const stepMs = (): number => Math.max(1, Math.round(STEP_SHARE * hours())) * HOUR_MS;
  /** The whole hour that now lies in. */
  const hourMs = createMemo(() => Math.floor(board.nowMs() / HOUR_MS) * HOUR_MS);
  const axis = createMemo((): Axis => {
    const fromMs = hourMs() + steps() * stepMs();
    return { fromMs, toMs: fromMs + hours() * HOUR_MS, widthPx: widthPx() };
  });
  const closed = createMemo(() => closedSpells(board.kitchen().settings, axis().fromMs, axis().toMs));
  const nowPx = () => pxAt(axis(), board.nowMs());
  const isNowInSight = (): boolean => board.nowMs() >= axis().fromMs && board.nowMs() < axis().toMs;
  /** The first, and that of midnight, with its day where that is not today. */
  const tick = (atMs: number, index: number): string => {
    const { when, time } = words().format;
    const isNewDay = when(atMs, atMs - HOUR_MS) !== time(atMs);
    return index === 0 || isNewDay ? when(atMs, board.nowMs()) : time(atMs);
  };
  return (
    <div class="timeline">
      <div class="timeline-steps" role="group" aria-label={text().hours}>
        <button type="button" class="small" onClick={() => setSteps(steps() - 1)}>
          <span aria-hidden="true">‹</span> {text().earlier}
        </button>
        <button type="button" class="small" disabled={steps() === 0} onClick={() => setSteps(0)}>
          {text().now}
        </button>
        <button type="button" class="small" onClick={() => setSteps(steps() + 1)}>
          {text().later} <span aria-hidden="true">›</span>
        </button>
      </div>
      <div class="timeline-board">
        <div class="scale" ref={scale} aria-hidden="true">
          <For each={hoursOf(axis())}>
            {(atMs, index) => (
              <span class="hour" style={{ left: `${pxAt(axis(), atMs)}px` }}>
                {tick(atMs, index())}
              </span>
            )}
          </For>
        </div>
        <div class="under-rows" aria-hidden="true">
          <For each={closed()}>
            {({ fromMs, toMs }) => (
              <span
                class="closed-hours"
                style={{
                  left: `${pxAt(axis(), fromMs)}px`,
                  width: `${pxAt(axis(), toMs) - pxAt(axis(), fromMs)}px`,
                }}
              />
            )}
          </For>
          <For each={hoursOf(axis())}>
            {(atMs) => <span class="hour-line" style={{ left: `${pxAt(axis(), atMs)}px` }} />}
          </For>
          <Show when={isNowInSight()}>
            <span class="now-line" style={{ left: `${nowPx()}px` }} />
          </Show>
        </div>
        <KeyedFor each={props.work} by={({ key }) => key}>
          {(row) => (
            <Row
              name={say.name(row())}
              note={say.note(row())}
              marks={({ doing }) => ({ "data-doing": doing })}
              lanes={laidOut(row().blocks, axis(), WORK_LANES, severalOf)}
              beside={(laid) =>
                !isWithin(laid) && laid.roomPx > textPx(say.doing(laid.item))
                  ? say.doing(laid.item)
                  : undefined
              }
            >
              {(laid: Accessor<Laid<Block>>) => (
                <>
                  <strong>{laid().label}</strong>
                  <Show when={isWithin(laid())}>
                    <small>{say.doing(laid().item)}</small>
                  </Show>
                  <Show when={laid().item.icing}>
                    {(icing) => <i style={{ background: icing().hex }} aria-hidden="true" />}
                  </Show>
                </>
              )}
            </Row>
          )}
        </KeyedFor>
        <KeyedFor each={props.places} by={({ key }) => key}>
          {(place) => (
            <Row
              isPlace
              name={place().name}
              note={text().taken(place().taken, place().capacity)}
              marks={({ isPlanned }) => ({ "data-planned": isPlanned })}
              lanes={laidOut(place().bars, axis(), PLACE_LANES, (one, other) => barOfBoth(one, other))}
            >
              {(laid: Accessor<Laid<DryBar>>) => (
                <>
                  <i
                    style={{
                      width: `${pxAt(axis(), laid().item.skinMs) - pxAt(axis(), laid().item.fromMs)}px`,
                    }}
                    aria-hidden="true"
                  />
                  <strong>{laid().label}</strong>
                </>
              )}
            </Row>
          )}
        </KeyedFor>
      </div>
      <p class="quiet timeline-key">
        <span data-is="wet" /> {text().wet} <span data-is="drying" /> {text().drying}{" "}
        <span data-is="planned" /> {text().planned}
      </p>
    </div>
  );
}

const textPx = (text: string): number => labelPx("") + SMALL_LETTER_PX * text.length;

/** One row; what it says is read out as one line, since each block alone says too little. */
function Row<Item extends Block | DryBar>(props: {
  name: string;
  note: string | undefined;
  isPlace?: boolean;
  /** What its blocks are, for how they look. */
  marks: (item: Item) => { "data-doing"?: Doing; "data-planned"?: boolean };
  lanes: readonly Laid<Item>[];
  /** What stands beside a block that has no room for it. */
  beside?: (laid: Laid<Item>) => string | undefined;
  children: (laid: Accessor<Laid<Item>>) => JSX.Element;
}) {
  const say = createRowWords();
  const lanes = (): number => Math.max(1, ...props.lanes.map(({ lane }) => lane + 1));
  return (
    <div class="timeline-row" data-place={props.isPlace} style={{ "--lanes": lanes() }}>
      <div class="row-name">
        <strong>{props.name}</strong>
        <small>{props.note}</small>
      </div>
      <ul class="row-blocks">
        <KeyedFor each={props.lanes} by={({ item }) => whatStretch(item)}>
          {(laid) => (
            <li
              class="block"
              {...props.marks(laid().item)}
              style={{ left: `${laid().leftPx}px`, width: `${laid().widthPx}px`, "--lane": laid().lane }}
            >
              <a href={`#/t/${laid().item.trays[0]}`} title={say.stretch(laid().item)}>
                {props.children(laid)}
                <span class="visually-hidden"> {say.stretch(laid().item)}</span>
              </a>
              <Show when={props.beside?.(laid())}>
                {(text) => (
                  <small class="outside" aria-hidden="true">
                    {text()}
                  </small>
                )}
              </Show>
            </li>
          )}
        </KeyedFor>
      </ul>
    </div>
  );
}
