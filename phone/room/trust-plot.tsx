import { scaleLog } from "d3-scale";
import { curveMonotoneX, line } from "d3-shape";
import { For, Show, createMemo, createSignal, onCleanup, onMount } from "solid-js";
import type { Found } from "#shared/kitchen/calibration/trust.ts";
import { FilmMark, PlotLegend } from "./trust-marks.tsx";
import { usePhone } from "#phone/app/phone.tsx";

const HEIGHT_PX = 270;
const EDGE_PX = 12;
/** Where the time axis may be marked, min. */
const TICKS_MIN = [1, 2, 5, 15, 30, 60, 120, 240, 480, 960, 1440, 2880, 5760];
const TICKS_MOST = 6;

/**
 * Forecast against found, a column a film, the one forecast soonest first: the bar runs from earliest to latest, the rising
 * line is the likeliest, and what hands found stands on the same log scale of time. (Films of a day share two or three
 * forecasts: on a forecast axis they would lie over one another.)
 */
export function TrustPlot(props: { drawn: readonly Found[]; quantity: Found["quantity"] }) {
  const { words } = usePhone();
  const text = () => words().trust;
  const [widthPx, setWidthPx] = createSignal(280);
  const [chosen, setChosen] = createSignal<string>();
  let box: HTMLDivElement | undefined;
  onMount(() => {
    if (box === undefined || !("ResizeObserver" in globalThis)) return;
    const observer = new ResizeObserver(([entry]) => setWidthPx(entry?.contentRect.width ?? 280));
    observer.observe(box);
    onCleanup(() => observer.disconnect());
  });
  const scale = createMemo(() => {
    const least = Math.min(
      ...props.drawn.map(({ earliestMin, byMin }) => Math.min(earliestMin, byMin ?? Infinity)),
    );
    const most = Math.max(
      ...props.drawn.map(({ latestMin, notYetMin }) => Math.max(latestMin, notYetMin ?? 0)),
    );
    return scaleLog([Math.max(0.3, least * 0.8), most * 1.25], [HEIGHT_PX - EDGE_PX, EDGE_PX]).clamp(true);
  });
  const ticks = createMemo(() => {
    const [from = 1, to = 1] = scale().domain();
    const within = TICKS_MIN.filter((minutes) => minutes >= from && minutes <= to);
    return within.length <= TICKS_MOST ? within : within.filter((_, k) => k % 2 === 0);
  });
  const isOnAxis = (minutes: number): boolean => {
    const [from = 0, to = 0] = scale().domain();
    return minutes >= from && minutes <= to;
  };
  const columnPx = (): number => widthPx() / props.drawn.length;
  const centrePx = (k: number): number => (k + 0.5) * columnPx();
  const likeliest = createMemo(
    () =>
      line<Found>(
        (_, k) => centrePx(k),
        ({ likelyMin }) => scale()(likelyMin),
      ).curve(curveMonotoneX)([...props.drawn]) ?? "",
  );
  const outside = createMemo(() => props.drawn.filter(({ surprise }) => surprise !== undefined).length);
  const selected = createMemo(() => props.drawn.find(({ key }) => key === chosen()));
  function choose(event: PointerEvent): void {
    const left = box?.getBoundingClientRect().left ?? 0;
    const k = Math.floor((event.clientX - left) / columnPx());
    setChosen(props.drawn[Math.min(props.drawn.length - 1, Math.max(0, k))]?.key);
  }
  return (
    <figure class="card trust-plot">
      <figcaption>{text().plot.title(props.drawn.length)}</figcaption>
      <div class="plot">
        <div class="plot-times" style={{ height: `${HEIGHT_PX}px` }} aria-hidden="true">
          <For each={ticks()}>
            {(minutes) => (
              <span style={{ top: `${scale()(minutes)}px` }}>{words().format.span(minutes)}</span>
            )}
          </For>
        </div>
        <div class="plot-area" ref={box} onPointerDown={choose}>
          <svg
            width={widthPx()}
            height={HEIGHT_PX}
            role="img"
            aria-label={text().plot.label(props.drawn.length, outside())}
            data-quantity={props.quantity}
          >
            <For each={ticks()}>
              {(minutes) => (
                <line class="plot-grid" x1="0" x2={widthPx()} y1={scale()(minutes)} y2={scale()(minutes)} />
              )}
            </For>
            <Show when={selected()} keyed>
              {(film) => (
                <rect
                  class="plot-chosen"
                  x={props.drawn.indexOf(film) * columnPx()}
                  width={columnPx()}
                  height={HEIGHT_PX}
                />
              )}
            </Show>
            <path class="plot-likeliest" d={likeliest()} />
            <For each={props.drawn}>
              {(found, k) => (
                <FilmMark
                  found={found}
                  xPx={centrePx(k())}
                  widthPx={columnPx()}
                  yPx={(minutes) => scale()(minutes)}
                  isOnAxis={isOnAxis}
                />
              )}
            </For>
          </svg>
        </div>
      </div>
      <p class="plot-film" role="status">
        <Show when={selected()} keyed fallback={text().plot.tap}>
          {(found) => (
            <>
              <strong>{text().film(found)}</strong> · <FoundWhere found={found} />. {text().found(found)}
              {found.surprise === undefined
                ? "."
                : `: ${text().surprise(found.surprise, found.contradicted)}.`}
            </>
          )}
        </Show>
      </p>
      <PlotLegend quantity={props.quantity} />
      <details class="history">
        <summary>{text().plot.asTable}</summary>
        <FoundTable drawn={props.drawn} />
      </details>
    </figure>
  );
}

/** Its icing, where it dried, and when it was touched. */
export function FoundWhere(props: { found: Found }) {
  const { board, words } = usePhone();
  const where = (): string => {
    const { icings, places } = board.kitchen();
    const { icing, place, atMs } = props.found;
    return words().trust.where(icings[icing]?.name, places[place]?.name, atMs);
  };
  return <span>{where()}</span>;
}

function FoundTable(props: { drawn: readonly Found[] }) {
  const { words } = usePhone();
  const text = () => words().trust;
  const likeliest = (found: Found): string => words().trays.likeliest(words().format.span(found.likelyMin));
  return (
    <table class="found-table">
      <thead>
        <tr>
          <th scope="col">{text().plot.columns.film}</th>
          <th scope="col">{text().plot.columns.shown}</th>
          <th scope="col">{text().plot.columns.found}</th>
        </tr>
      </thead>
      <tbody>
        <For each={props.drawn}>
          {(found) => (
            <tr>
              <th scope="row">{text().film(found)}</th>
              <td>
                {text().shown(found)}, {likeliest(found)}
              </td>
              <td>
                {text().foundAt(found)}
                {found.surprise === undefined ? "" : `: ${text().plot.outside[found.surprise.is]}`}
              </td>
            </tr>
          )}
        </For>
      </tbody>
    </table>
  );
}
