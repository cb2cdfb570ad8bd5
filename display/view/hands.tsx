import { createMemo, For, Show } from "solid-js";
import type { JSX } from "solid-js";
import type { WallView } from "#display/model/wall-view.ts";
import type { ReadyTile } from "#shared/kitchen/tray/ready.ts";
import { Cookie } from "#shared/client/cookie/cookie.tsx";
import { hasNameRoom, type TileSize } from "#display/model/tile-growth.ts";
import type { WallLayout } from "#display/model/wall-layout.ts";
import { useWords } from "#shared/client/screen/language.ts";
import { sayNumbers } from "#shared/words/tray-numbers.ts";
import type { Words } from "#shared/words/words.ts";
import { MIN_MS } from "#shared/time.ts";
import { fitText } from "./fit.ts";

/** What needs someone: tiles while there is room, the rest in a line; under it heat tools that are on, and what is hot. */
export function Hands(props: { view: WallView }): JSX.Element {
  const words = useWords();
  const ready = () => words().wall.ready;
  const isStale = (): boolean => props.view.isStale();
  const size = (): TileSize => props.view.tileSize();
  return (
    <>
      <h1 class="heading">
        {isStale() ? ready().staleTitle : ready().title}{" "}
        <span class="soft">· {isStale() ? ready().stale : ready().byPlan}</span>
      </h1>
      <Show
        when={props.view.shown.tiles.length > 0}
        fallback={
          <Show when={!props.view.noTileRoom()}>
            <p class="none soft">{ready().none}</p>
          </Show>
        }
      >
        <div
          class="tiles"
          data-form={props.view.layout().form}
          data-beside={size().art.isBeside}
          style={tileVars(props.view.layout(), size(), props.view.limit().letters)}
        >
          <For each={props.view.shown.tiles}>{(tile) => <Tile tile={tile} view={props.view} />}</For>
        </div>
      </Show>
      <p class="more" ref={(line) => fitText(line, () => moreWays(words(), props.view.more()), 1)} />
      <Show when={props.view.tools().text}>
        {(tools) => (
          <p
            class="tools soft"
            style={{
              "-webkit-line-clamp": Number.isFinite(props.view.limit().toolsLines)
                ? props.view.limit().toolsLines
                : "none",
            }}
          >
            {isStale() ? words().wall.tools.asLastHeard(tools()) : tools()}
          </p>
        )}
      </Show>
    </>
  );
}

/** The sizes of tiles as CSS custom properties: within them they stand over the layout's. */
function tileVars(
  { act, number, numberColumn, second }: WallLayout,
  { columns, grow, rowHeight, art }: TileSize,
  letters: number,
): Record<string, string> {
  const sizes = {
    act: act * grow,
    number: number * grow,
    "number-column": numberColumn * grow,
    second: second * letters * grow,
    "tile-height": rowHeight,
    "art-width": art.width,
    "art-height": art.height,
  };
  const px = Object.entries(sizes).map(([name, size]) => [`--${name}`, `${size.toFixed(2)}px`]);
  return { ...(Object.fromEntries(px) as Record<string, string>), "--columns": String(columns) };
}

/** Ways to say what has no tile, "and 3 more: 18, 23, 40 · 12 to start", from many numbers to none. */
export function moreWays(
  { wall }: Words,
  { ready, toStart }: { ready: readonly number[]; toStart: readonly number[] },
): string[] {
  const some = (numbers: readonly number[], most: number): string =>
    most < 1 ? "" : sayNumbers(numbers, most);
  return Array.from({ length: 13 }, (_, k) => 12 - k).map((most) =>
    [
      ...(ready.length > 0 ? [wall.ready.more(ready.length, some(ready, most))] : []),
      ...(toStart.length > 0
        ? [wall.ready.moreToStart(toStart.length, some(toStart, Math.ceil(most / 3)))]
        : []),
    ].join(" · "),
  );
}

function Tile(props: { tile: ReadyTile; view: WallView }): JSX.Element {
  const words = useWords();
  const tile = (): ReadyTile => props.tile;
  const kitchen = () => props.view.board.kitchen();
  const cookie = createMemo(() => {
    const { designId, laid } = tile();
    const design = kitchen().designs[designId];
    return design && { design, laid };
  });
  /** Its design is named beside the cookie, where there is room, else under the act. */
  const isNamed = createMemo(() => {
    const [layout, size, measure] = [props.view.layout(), props.view.tileSize(), props.view.measure()];
    const name = cookie()?.design.name;
    if (name === undefined || layout.form === "row") return false;
    const { numbers } = tile();
    const number = numbers.length > 1 ? Math.max(layout.act, 0.56 * layout.number) : layout.number;
    const secondPx = layout.second * size.grow;
    const wordPx = Math.max(...name.split(/\s+/).map((word) => measure(word) * secondPx));
    return hasNameRoom(
      size,
      measure(sayNumbers(numbers), 800) * number * size.grow,
      measure(name) * secondPx,
      wordPx,
    );
  });
  /** How long it has waited; of one to start by when, where that may be promised. */
  const wait = createMemo(() => {
    const { wall, trays, format } = words();
    const { is, sinceMs, planned, waitsLong } = tile();
    const nowMs = props.view.nowMs();
    if (is === "to start") {
      const byMs = planned?.startByMs;
      if (byMs === undefined || props.view.isStale()) return wall.ready.toStart;
      return byMs - nowMs < MIN_MS ? trays.startNow : trays.startBy(byMs, nowMs);
    }
    if (props.view.isStale()) return undefined;
    const waitMin = Math.floor((nowMs - sinceMs) / MIN_MS);
    const span = waitMin < 1 ? undefined : format.span(waitMin);
    if (waitsLong) return wall.ready.next(span ?? wall.ready.waitsSince);
    return span === undefined ? wall.ready.waitsSince : wall.ready.waits(span);
  });
  return (
    <article
      class="tile"
      data-is={tile().is.replaceAll(" ", "-")}
      data-run={tile().numbers.length > 1}
      role={props.view.onOpen && "button"}
      tabIndex={props.view.onOpen && 0}
      onClick={() => props.view.onOpen?.(tile())}
    >
      {/* A run breaks after its dash where the number has a narrow column. */}
      <b class="number">
        <For each={sayNumbers(tile().numbers).split(/(?<=–)/)}>{(part) => <span>{part}</span>}</For>
      </b>
      <Show when={cookie()}>
        {(point) => (
          <div class="look">
            <Show when={isNamed()}>
              <span class="design">{point().design.name}</span>
            </Show>
            <Show when={props.view.tileSize().art.width > 0}>
              <Cookie class="art" point={point()} icings={kitchen().icings} />
            </Show>
          </div>
        )}
      </Show>
      <h2 class="act">{words().trays.act(tile().act)}</h2>
      <div class="facts">
        <p class="where">
          <span class="place">{words().terms.place(tile().place)}</span>
          <Show when={tile().hotUntilMs !== undefined || wait() !== undefined}> · </Show>
          <span class="wait">
            <Show
              when={tile().hotUntilMs === undefined}
              fallback={<b class="mitts">{words().wall.ready.dryMitts}</b>}
            >
              <Show when={tile().waitsLong} fallback={wait()}>
                <b class="long">{wait()}</b>
              </Show>
            </Show>
          </span>
        </p>
        <p class="foot">
          <Show
            when={tile().hotUntilMs}
            fallback={whatFor(words(), tile(), isNamed() ? undefined : cookie()?.design.name)}
          >
            {(untilMs) => <b class="hot">{words().wall.ready.hotUntil(words().format.time(untilMs()))}</b>}
          </Show>
        </p>
      </div>
    </article>
  );
}

/** What follows the act, its order, its design where that is not said beside the cookie, its icing's colour: "Kite morning · moss". */
const whatFor = (
  { trays, format }: Words,
  { afterwards, order, icing }: ReadyTile,
  design: string | undefined,
): string =>
  [
    afterwards && trays.thenAct(afterwards),
    order !== undefined && format.name(order),
    design !== undefined && format.name(design),
    afterwards === undefined && icing !== undefined && format.name(icing.name),
  ]
    .filter((part) => part !== undefined && part !== false)
    .join(" · ");
