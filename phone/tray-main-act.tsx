import { Match, Show, Switch, createMemo } from "solid-js";
import { nextAct, readiness } from "#shared/kitchen/route.ts";
import type { Tray } from "#shared/kitchen/state.ts";
import type { Consistency, Design } from "#shared/kitchen/vocabulary.ts";
import { clockTime, lowered } from "#shared/kitchen/wording.ts";
import { usePhone } from "./phone.tsx";

/** "Flooded", "Piped", "Top-coated": what a hand says once the layer is on. */
const DONE: Readonly<Record<Consistency, string>> = {
  outline: "Piped",
  detail: "Piped",
  flood: "Flooded",
  "top-coat": "Top-coated",
};

/** The one next act of a tray, as a button no thumb can miss. */
export function MainAct(props: { tray: Tray; design: Design }) {
  const { board, act, zone } = usePhone();
  const next = createMemo(() => nextAct(board.kitchen(), props.tray));
  const state = createMemo(() => readiness(board.kitchen(), board.forecasts(), props.tray, board.nowMs()));
  const tooSoon = (): boolean =>
    state().is === "coming" || state().is === "never" || state().is === "unknown";
  const number = (): number => props.tray.number;
  const done = (layer: number): string => DONE[props.design.layers[layer]?.consistency ?? "flood"];
  const start = (): void =>
    void act({ type: "start-flooding", trayId: props.tray.id }, `Tray ${number()} in hand`);
  const flooded = (): void =>
    void act({ type: "flooded", trayId: props.tray.id }, `Tray ${number()} clock started`);
  const pack = (): void => void act({ type: "pack", trayId: props.tray.id }, `Tray ${number()} packed`);
  return (
    <Switch>
      <Match when={next().kind === "flooding" && next()} keyed>
        {(next) => (
          <button type="button" class="act" onClick={flooded}>
            {done("layer" in next ? next.layer : 0)}: start the drying clock
            <small>one tap, undo for 20 s</small>
          </button>
        )}
      </Match>
      <Match when={next().kind === "flood" && next()} keyed>
        {(next) => (
          <Show
            when={!tooSoon()}
            fallback={
              <button type="button" class="act sooner" onClick={start}>
                {next.verb} sooner
                <small>a second tap names the risk</small>
              </button>
            }
          >
            <button type="button" class="act" onClick={flooded}>
              {done("layer" in next ? next.layer : 0)}: start the drying clock
              <small>one tap, undo for 20 s</small>
            </button>
            <button type="button" class="plain wide" onClick={start}>
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
        <button type="button" class="act" classList={{ sooner: tooSoon() }} onClick={pack}>
          {next().verb}
          {tooSoon() ? " sooner" : ""}
          <small>{tooSoon() ? "a second tap names the risk" : "one tap, undo for 20 s"}</small>
        </button>
      </Match>
      <Match when={props.tray.standing.stage === "packed" && props.tray.standing} keyed>
        {(packed) => (
          <p class="done">
            Packed {"atMs" in packed ? clockTime(packed.atMs, zone()) : ""}
            {"by" in packed ? ` by ${board.kitchen().people[packed.by]?.name ?? "the kitchen"}` : ""}
          </p>
        )}
      </Match>
    </Switch>
  );
}
