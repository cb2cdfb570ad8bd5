import { createMemo, For, Show } from "solid-js";
import type { Accessor, JSX } from "solid-js";
import type { ReadyTile } from "#shared/kitchen/tray/ready.ts";
import { AS_LAST_HEARD } from "#display/model/tools-line.ts";
import { sayNumbers } from "#shared/words/tray-numbers.ts";
import { clockTime } from "#shared/words/wording.ts";
import { sayWait } from "./words.ts";

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
  timeZone: string;
  nowMs: Accessor<number>;
  isStale: boolean;
  /** A bench that can be touched opens the tray's next act; a wall does not. */
  onOpen?: ((tile: ReadyTile) => void) | undefined;
}

/** What wants hands: tiles while there is room, the rest in a line. */
export function Hands(props: HandsProps): JSX.Element {
  return (
    <>
      <h2 class="heading">
        <Show
          when={!props.isStale}
          fallback={
            <>
              Wanted hands <span class="soft">· when last heard</span>
            </>
          }
        >
          Ready for hands <span class="soft">· longest wait first</span>
        </Show>
      </h2>
      <Show
        when={props.tiles.length > 0}
        fallback={
          <Show when={!props.noTileRoom}>
            <p class="none">Nothing wants hands just now</p>
          </Show>
        }
      >
        <div class="tiles" data-form={props.form}>
          <For each={props.tiles}>{(tile) => <Tile tile={tile} hands={props} />}</For>
        </div>
      </Show>
      <p class="more">{moreWords(props.more, props.moreToStart, props.moreLetters)}</p>
      <Show when={props.tools}>
        {(tools) => (
          <p
            class="tools"
            style={{ "-webkit-line-clamp": Number.isFinite(props.toolsLines) ? props.toolsLines : "none" }}
          >
            {props.isStale ? AS_LAST_HEARD + tools() : tools()}
          </p>
        )}
      </Show>
    </>
  );
}

/** "and 3 more: 18, 23, 40 · 12 to start": as many numbers as the line's letters hold. */
export function moreWords(more: readonly number[], toStart: readonly number[], letters: number): string {
  for (let most = 12; most > 0; most -= 1) {
    const words = [
      ...(more.length > 0 ? [`and ${more.length} more: ${sayNumbers(more, most)}`] : []),
      ...(toStart.length > 0
        ? [`${toStart.length} to start: ${sayNumbers(toStart, Math.ceil(most / 3))}`]
        : []),
    ].join(" · ");
    if (words.length <= letters) return words;
  }
  return [
    ...(more.length > 0 ? [`and ${more.length} more`] : []),
    ...(toStart.length > 0 ? [`${toStart.length} to start`] : []),
  ].join(" · ");
}

function Tile(props: { tile: ReadyTile; hands: HandsProps }): JSX.Element {
  const tile = (): ReadyTile => props.tile;
  const wait = createMemo(() => {
    if (props.hands.isStale || tile().is === "to start") return undefined;
    return sayWait(props.hands.nowMs() - tile().sinceMs);
  });
  const hot = createMemo(() => {
    const { hotUntilMs } = tile();
    return hotUntilMs === undefined
      ? undefined
      : `hot until about ${clockTime(hotUntilMs, props.hands.timeZone)}`;
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
      <TileNumber label={tile().label} />
      <h3 class="act">{tile().act}</h3>
      <div class="facts">
        <p class="foot">
          <Show when={hot()} fallback={<Foot tile={tile()} />}>
            {(words) => <span class="hot">{words()}</span>}
          </Show>
        </p>
        <div class="where">
          <p class="place">{tile().place}</p>
          <p class="wait">
            <Show
              when={hot() !== undefined}
              fallback={tile().waitsLong && wait() ? <b class="long">next: {wait()}</b> : wait()}
            >
              <b class="mitts">dry mitts</b>
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
  return (
    <>
      <Show when={props.tile.afterwards}>
        {(verb) => <span class="then">then {verb().toLowerCase()}</span>}
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
        {(name) => <span class="for">for {name()}</span>}
      </Show>
      <Show when={props.tile.is === "to start"}>
        <span class="start">to start</span>
      </Show>
    </>
  );
}
