import { Match, Show, Switch, createMemo } from "solid-js";
import { nextAct, readiness } from "#shared/kitchen/tray/route.ts";
import { goodOn, spoiledOn } from "#shared/kitchen/model/state.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import type { Consistency, Design } from "#shared/kitchen/model/vocabulary.ts";
import { clockTime, lowered } from "#shared/words/wording.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { createChangeGuard } from "#shared/client/screen/tap-guard.ts";

/** "Flooded", "Piped", "Top-coated": what a hand says once the layer is on. */
const DONE: Readonly<Record<Consistency, string>> = {
  outline: "Piped",
  detail: "Piped",
  flood: "Flooded",
  "top-coat": "Top-coated",
};

/** "9 good, 3 spoiled"; nothing where all are good. */
const spoiledWords = (tray: Tray): string =>
  spoiledOn(tray) === 0 ? "" : `${goodOn(tray)} good, ${spoiledOn(tray)} spoiled`;

const layerOf = (next: ReturnType<typeof nextAct>): number => ("layer" in next ? next.layer : 0);

/** The one next act of a tray, as a button no thumb can miss. */
export function MainAct(props: { tray: Tray; design: Design }) {
  const { board, act, zone, timer } = usePhone();
  const next = createMemo(() => nextAct(board.kitchen(), props.tray));
  const state = createMemo(() => readiness(board.kitchen(), board.forecasts(), props.tray, board.nowMs()));
  const tooSoon = (): boolean =>
    state().is === "coming" || state().is === "never" || state().is === "unknown";
  const number = (): number => props.tray.number;
  const done = (layer: number): string => DONE[props.design.layers[layer]?.consistency ?? "flood"];
  // Laid wet on wet the next layer's act comes under the thumb at once.
  const settled = createChangeGuard(timer, () => `${props.tray.id} ${next().kind} ${layerOf(next())}`);
  const does = (type: "start-flooding" | "flooded" | "pack", said: string) => (): void =>
    void (settled() && act({ type, trayId: props.tray.id }, `Tray ${number()} ${said}`));
  const start = does("start-flooding", "in hand");
  const flooded = does("flooded", "clock started");
  const pack = does("pack", "packed");
  return (
    <Switch>
      <Match when={next().kind === "flooding" && next()} keyed>
        {(next) => (
          <button type="button" class="act" aria-disabled={!settled()} onClick={flooded}>
            {done(layerOf(next))}: start the drying clock
            <small>one tap, undo for 20 s</small>
          </button>
        )}
      </Match>
      <Match when={next().kind === "flood" && next()} keyed>
        {(next) => (
          <Show
            when={!tooSoon()}
            fallback={
              <button type="button" class="act sooner" aria-disabled={!settled()} onClick={start}>
                {next.verb} sooner
                <small>a second tap names the risk</small>
              </button>
            }
          >
            <button type="button" class="act" aria-disabled={!settled()} onClick={flooded}>
              {done(layerOf(next))}: start the drying clock
              <small>one tap, undo for 20 s</small>
            </button>
            <button type="button" class="plain wide" aria-disabled={!settled()} onClick={start}>
              Take it in hand: {lowered(next.verb)}
            </button>
          </Show>
        )}
      </Match>
      <Match when={next().kind === "heat"}>
        <a class="act ember" href={`#/t/${number()}/heat`}>
          Under heat: to the timer
          <small>count-up, next cookie, stop</small>
        </a>
      </Match>
      <Match when={next().kind === "pack"}>
        <button
          type="button"
          class="act"
          classList={{ sooner: tooSoon() }}
          aria-disabled={!settled()}
          onClick={pack}
        >
          {next().verb}
          {tooSoon() ? " sooner" : ""}
          <small>
            {spoiledWords(props.tray) === "" ? "" : `${spoiledWords(props.tray)} · `}
            {tooSoon() ? "a second tap names the risk" : "one tap, undo for 20 s"}
          </small>
        </button>
      </Match>
      <Match when={props.tray.standing.stage === "packed" && props.tray.standing} keyed>
        {(packed) => (
          <p class="done">
            Packed {"atMs" in packed ? clockTime(packed.atMs, zone()) : ""}
            {"by" in packed ? ` by ${board.kitchen().people[packed.by]?.name ?? "the kitchen"}` : ""}
            {spoiledWords(props.tray) === "" ? "" : ` · ${spoiledWords(props.tray)}`}
          </p>
        )}
      </Match>
    </Switch>
  );
}
