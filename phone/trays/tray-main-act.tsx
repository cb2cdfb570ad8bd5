import { Match, Show, Switch, createMemo, createSignal } from "solid-js";
import { nextAct, readiness } from "#shared/kitchen/tray/route.ts";
import { goodOn, secondsOn, spoiledOn } from "#shared/kitchen/model/lookups.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";
import { useFirst } from "#phone/app/phone.tsx";
import { PackSheet } from "#phone/app/parts.tsx";
import { alike } from "#shared/client/screen/alike.ts";
import { createChangeGuard } from "#shared/client/screen/tap-guard.ts";

const packedOf = ({ status }: Tray) => (status.stage === "packed" ? status : undefined);

const layerOf = (next: ReturnType<typeof nextAct>): number => ("layer" in next ? next.layer : 0);

/** The one next act of a tray, as a button no thumb can miss. */
export function MainAct(props: { tray: Tray; design: Design }) {
  const { board, words, act, timer } = useFirst();
  /** "9 good, 3 spoiled"; nothing where all are good. */
  const spoiledText = (): string | undefined =>
    spoiledOn(props.tray) === 0
      ? undefined
      : words().trays.goodAndSpoiled(goodOn(props.tray), spoiledOn(props.tray));
  // The same button all the while the act is the same: a thumb is on it when somebody taps elsewhere.
  const next = createMemo(() => nextAct(board.kitchen(), props.tray), undefined, alike);
  const state = createMemo(() => readiness(board.kitchen(), board.forecasts(), props.tray, board.nowMs()));
  const tooSoon = (): boolean =>
    state().is === "coming" || state().is === "never" || state().is === "unknown";
  const number = (): number => props.tray.number;
  /** What a hand says once the layer is on. */
  const done = (): string => {
    const now = next();
    return now.kind === "flood" || now.kind === "flooding"
      ? words().trays.act({ kind: "flooding", layer: now.layer, how: now.how })
      : "";
  };
  // Laid wet on wet the next layer's act comes under the thumb at once.
  const settled = createChangeGuard(timer, () => `${props.tray.id} ${next().kind} ${layerOf(next())}`);
  const does = (type: "start-flooding" | "flooded" | "pack", said: (tray: number) => string) => (): void =>
    void (settled() && act({ type, trayId: props.tray.id }, said(number())));
  const start = does("start-flooding", (tray) => words().trays.said.inHand(tray));
  const flooded = does("flooded", (tray) => words().trays.said.clockStarted(tray));
  const pack = does("pack", (tray) => words().trays.said.packed(tray));
  const [isSorting, setSorting] = createSignal(false);
  return (
    <Switch>
      <Match when={next().kind === "flooding" && next()} keyed>
        {(_flooding) => (
          <button type="button" class="act" aria-disabled={!settled()} onClick={flooded}>
            {done()}
            <small>{words().trays.undoHint}</small>
          </button>
        )}
      </Match>
      <Match when={next().kind === "flood" && next()} keyed>
        {(next) => (
          <Show
            when={!tooSoon()}
            fallback={
              <button type="button" class="act sooner" aria-disabled={!settled()} onClick={start}>
                {words().trays.sooner(next)}
                <small>{words().trays.riskHint}</small>
              </button>
            }
          >
            <button type="button" class="act" aria-disabled={!settled()} onClick={flooded}>
              {done()}
              <small>{words().trays.undoHint}</small>
            </button>
            <button type="button" class="plain wide" aria-disabled={!settled()} onClick={start}>
              {words().trays.takeInHand(next)}
            </button>
          </Show>
        )}
      </Match>
      <Match when={next().kind === "heat"}>
        <a class="act ember" href={`#/t/${number()}/heat`}>
          {words().trays.toTimer}
          <small>{words().trays.toTimerHint}</small>
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
          {tooSoon() ? words().trays.sooner(next()) : words().trays.act(next())}
          <small>
            {spoiledText() === undefined ? "" : `${spoiledText()} · `}
            {tooSoon() ? words().trays.riskHint : words().trays.undoHint}
          </small>
        </button>
        <button type="button" class="plain wide" onClick={() => setSorting(true)}>
          {words().trays.someNotGood}
        </button>
        <Show when={isSorting()}>
          <PackSheet tray={props.tray} onClose={() => setSorting(false)} />
        </Show>
      </Match>
      <Match when={packedOf(props.tray)} keyed>
        {(packed) => (
          <p class="done">
            {words().trays.packedAt(packed.atMs, board.kitchen().people[packed.by]?.name)}
            {spoiledText() === undefined ? "" : ` · ${spoiledText()}`}
            {secondsOn(props.tray) === 0 ? "" : ` · ${words().trays.secondsAre(secondsOn(props.tray))}`}
          </p>
        )}
      </Match>
    </Switch>
  );
}
