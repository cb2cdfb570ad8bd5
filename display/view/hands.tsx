import { createMemo, For, Show } from "solid-js";
import type { JSX } from "solid-js";
import type { WallView } from "#display/model/wall-view.ts";
import type { ReadyTile } from "#shared/kitchen/tray/ready.ts";
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
  return (
    <>
      <h2 class="heading">
        {isStale() ? ready().staleTitle : ready().title}{" "}
        <span class="soft">· {isStale() ? ready().stale : ready().byPlan}</span>
      </h2>
      <Show
        when={props.view.shown.tiles.length > 0}
        fallback={
          <Show when={!props.view.noTileRoom()}>
            <p class="none soft">{ready().none}</p>
          </Show>
        }
      >
        <div class="tiles" data-form={props.view.layout().form}>
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
  const wait = createMemo(() => {
    if (props.view.isStale() || tile().is === "to start") return undefined;
    const waitMin = Math.floor((props.view.nowMs() - tile().sinceMs) / MIN_MS);
    return waitMin < 1 ? words().wall.ready.waitsSince : words().format.span(waitMin);
  });
  /** Of one to start: by when, where that may be promised. */
  const start = createMemo(() => {
    const byMs = tile().planned?.startByMs;
    const nowMs = props.view.nowMs();
    const { plan, wall } = words();
    if (byMs === undefined || props.view.isStale()) return wall.ready.toStart;
    return byMs - nowMs < MIN_MS ? plan.startNow : plan.startBy(byMs, nowMs);
  });
  const facts = createMemo(() => factsOf(words(), tile(), start()));
  /** And what it is for. */
  const pickUp = createMemo(() => {
    const { pickUpAtMs, planned } = tile();
    if (props.view.isStale() || planned?.startByMs === undefined) return undefined;
    return words().plan.forPickUp(words().format.whenWithDay(pickUpAtMs, props.view.nowMs()));
  });
  const isHot = (): boolean => tile().hotUntilMs !== undefined;
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
      <h3 class="act">{words().trays.act(tile().act)}</h3>
      <div class="facts">
        <p class="foot">
          <Show
            when={tile().hotUntilMs}
            fallback={
              <For each={facts()}>
                {(fact) => (
                  <span>
                    {fact.hex && <i class="swatch" style={{ background: fact.hex }} aria-hidden="true" />}
                    {fact.words}
                  </span>
                )}
              </For>
            }
          >
            {(untilMs) => <b class="hot">{words().wall.ready.hotUntil(words().format.time(untilMs()))}</b>}
          </Show>
        </p>
        <div class="where">
          <p class="place">{words().terms.place(tile().place)}</p>
          <p class="wait">
            <Show when={!isHot()} fallback={<b class="mitts">{words().wall.ready.dryMitts}</b>}>
              <Show when={tile().waitsLong && wait()} fallback={wait() ?? pickUp()}>
                {(long) => <b class="long">{words().wall.ready.next(long())}</b>}
              </Show>
            </Show>
          </p>
        </div>
      </div>
    </article>
  );
}

/** What follows the act; else its icing, or its order; and by when to begin it. */
function factsOf({ trays, wall }: Words, tile: ReadyTile, start: string): { words: string; hex?: string }[] {
  const { afterwards, icing, order } = tile;
  return [
    afterwards && { words: trays.thenAct(afterwards) },
    afterwards ? undefined : icing && { words: icing.name, hex: icing.hex },
    afterwards || order === undefined ? undefined : { words: wall.ready.forOrder(order) },
    tile.is === "to start" ? { words: start } : undefined,
  ].flatMap((fact) => fact ?? []);
}
