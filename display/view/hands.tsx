import { createMemo, For, Show } from "solid-js";
import type { Accessor, JSX } from "solid-js";
import type { ReadyTile } from "#shared/kitchen/tray/ready.ts";
import { useWords } from "#shared/client/screen/language.ts";
import { sayNumbers } from "#shared/words/tray-numbers.ts";
import type { Words } from "#shared/words/words.ts";
import { MIN_MS } from "#shared/time.ts";

export interface HandsProps {
  tiles: readonly ReadyTile[];
  /** What is urgent took all the room of tiles. */
  noTileRoom: boolean;
  more: readonly number[];
  moreToStart: readonly number[];
  /** Letters that fit in the line under the tiles. */
  moreLetters: number;
  /** Heat tools that are on, and what is hot. */
  tools: string | undefined;
  toolsLines: number;
  form: "stacked" | "row";
  nowMs: Accessor<number>;
  isStale: boolean;
  /** A bench that can be touched opens the tray's next act; a wall does not. */
  onOpen?: ((tile: ReadyTile) => void) | undefined;
}

/** What needs someone: tiles while there is room, the rest in a line. */
export function Hands(props: HandsProps): JSX.Element {
  const words = useWords();
  const ready = () => words().wall.ready;
  return (
    <>
      <h2 class="heading">
        <Show
          when={!props.isStale}
          fallback={
            <>
              {ready().staleTitle} <span class="soft">· {ready().stale}</span>
            </>
          }
        >
          {ready().title} <span class="soft">· {ready().longestFirst}</span>
        </Show>
      </h2>
      <Show
        when={props.tiles.length > 0}
        fallback={
          <Show when={!props.noTileRoom}>
            <p class="none soft">{ready().none}</p>
          </Show>
        }
      >
        <div class="tiles" data-form={props.form}>
          <For each={props.tiles}>{(tile) => <Tile tile={tile} hands={props} />}</For>
        </div>
      </Show>
      <p class="more">{moreWords(words(), props.more, props.moreToStart, props.moreLetters)}</p>
      <Show when={props.tools}>
        {(tools) => (
          <p
            class="tools soft"
            style={{ "-webkit-line-clamp": Number.isFinite(props.toolsLines) ? props.toolsLines : "none" }}
          >
            {props.isStale ? words().wall.tools.asLastHeard(tools()) : tools()}
          </p>
        )}
      </Show>
    </>
  );
}

/** "and 3 more: 18, 23, 40 · 12 to start": as many numbers as the line's letters hold. */
export function moreWords(
  { wall }: Words,
  more: readonly number[],
  toStart: readonly number[],
  letters: number,
): string {
  const line = (most: number): string =>
    [
      ...(more.length > 0 ? [wall.ready.more(more.length, most === 0 ? "" : sayNumbers(more, most))] : []),
      ...(toStart.length > 0
        ? [wall.ready.moreToStart(toStart.length, most === 0 ? "" : sayNumbers(toStart, Math.ceil(most / 3)))]
        : []),
    ].join(" · ");
  for (let most = 12; most > 0; most -= 1) if (line(most).length <= letters) return line(most);
  return line(0);
}

/** How long something has waited, ms: "now", "12 min", "1 h 20". */
const sayWait = ({ wall, format }: Words, waitMs: number): string =>
  waitMs < MIN_MS ? wall.ready.waitsSince : format.span(Math.floor(waitMs / MIN_MS));

function Tile(props: { tile: ReadyTile; hands: HandsProps }): JSX.Element {
  const words = useWords();
  const tile = (): ReadyTile => props.tile;
  const wait = createMemo(() => {
    if (props.hands.isStale || tile().is === "to start") return undefined;
    return sayWait(words(), props.hands.nowMs() - tile().sinceMs);
  });
  const hot = createMemo(() => {
    const { hotUntilMs } = tile();
    return hotUntilMs === undefined
      ? undefined
      : words().wall.ready.hotUntil(words().format.time(hotUntilMs));
  });
  return (
    <article
      class="tile"
      data-is={tile().is.replaceAll(" ", "-")}
      data-long={tile().waitsLong}
      data-hot={hot() !== undefined}
      data-run={tile().numbers.length > 1}
      role={props.hands.onOpen && "button"}
      tabIndex={props.hands.onOpen && 0}
      onClick={() => props.hands.onOpen?.(tile())}
    >
      <TileNumber label={sayNumbers(tile().numbers)} />
      <h3 class="act">{words().trays.act(tile().act)}</h3>
      <div class="facts">
        <p class="foot">
          <Show when={hot()} fallback={<Foot tile={tile()} />}>
            {(until) => <span class="hot">{until()}</span>}
          </Show>
        </p>
        <div class="where">
          <p class="place">{words().terms.place(tile().place)}</p>
          <p class="wait">
            <Show
              when={hot() !== undefined}
              fallback={
                tile().waitsLong && wait() ? <b class="long">{words().wall.ready.next(wait()!)}</b> : wait()
              }
            >
              <b class="mitts">{words().wall.ready.dryMitts}</b>
            </Show>
          </p>
        </div>
      </div>
    </article>
  );
}

/** A run breaks after its dash where the number has a narrow column. */
function TileNumber(props: { label: string }): JSX.Element {
  const parts = (): string[] => props.label.split(/(?<=–)/);
  return (
    <b class="number">
      <For each={parts()}>{(part) => <span>{part}</span>}</For>
    </b>
  );
}

function Foot(props: { tile: ReadyTile }): JSX.Element {
  const words = useWords();
  return (
    <>
      <Show when={props.tile.afterwards}>
        {(next) => <span class="then">{words().trays.thenAct(next())}</span>}
      </Show>
      <Show when={props.tile.afterwards === undefined && props.tile.icing}>
        {(icing) => (
          <span class="icing">
            <i class="swatch" style={{ background: icing().hex }} aria-hidden="true" />
            {icing().name}
          </span>
        )}
      </Show>
      <Show when={props.tile.afterwards === undefined && props.tile.order}>
        {(name) => <span class="for">{words().wall.ready.forOrder(name())}</span>}
      </Show>
      <Show when={props.tile.is === "to start"}>
        <span class="start">{words().wall.ready.toStart}</span>
      </Show>
    </>
  );
}
