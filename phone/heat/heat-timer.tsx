import { Show, batch, createEffect, createMemo, createSignal, on, onMount } from "solid-js";
import { REMINDERS } from "#shared/heat/cautions.ts";
import { cookieUnder } from "#shared/kitchen/model/lookups.ts";
import type { HeatSet, Tray } from "#shared/kitchen/model/state.ts";
import type { HeatResult } from "#shared/kitchen/model/vocabulary.ts";
import { Stepper } from "#phone/ui/fields.tsx";
import { FirstAid } from "./cautions.tsx";
import { HotTray } from "./hot-tray.tsx";
import { HeatRing } from "./heat-ring.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import type { GoesDark } from "#shared/client/screen/wake-lock.ts";
import { createTapGuard } from "#shared/client/screen/tap-guard.ts";
import { Sheet } from "#phone/ui/sheet.tsx";

/** The heat under way: count up, what to watch, next cookie, stop. */
export function HeatTimer(props: {
  tray: Tray;
  heat: HeatSet;
  /** Why this phone's screen may go dark over it. */
  goesDark: GoesDark | undefined;
  onEnded: (toolId: string) => void;
}) {
  const { board, words, act, fineMs, timer, toast, closeToast } = usePhone();
  const [spoiling, setSpoiling] = createSignal(false);
  const elapsedS = createMemo(() => Math.max(0, Math.floor((fineMs() - props.heat.lapFromMs) / 1000)));
  const tool = createMemo(() => board.kitchen().tools[props.heat.toolId]);
  const byCookie = (): boolean => props.heat.toolKind === "hot-air";
  const cookie = (): number => cookieUnder(props.tray, props.heat);
  const isLast = (): boolean => !byCookie() || cookie() >= props.tray.count;
  const isPaused = (): boolean => props.heat.pausedSinceMs !== undefined;
  const isPast = (): boolean => !isPaused() && elapsedS() >= props.heat.limits.stopByS;
  const hintText = (): string | undefined => {
    const { hint, note } = props.heat.limits;
    return hint === undefined ? note : heat().hints[hint];
  };
  const isHeard = (): boolean => board.connection().is === "live";
  const heat = () => words().heat;
  // A thumb that tapped twice to start, or for the next cookie, must not stop.
  const settled = createTapGuard(timer, () => `${props.heat.actId} ${props.heat.laps.length} ${isPaused()}`);
  const whenSettled = (run: () => void) => (): void => void (settled() && run());
  // It begins at the end of a long card: the clock is at the top.
  let main: HTMLElement | undefined;
  onMount(() => {
    const page = main?.closest(".page");
    if (page) page.scrollTop = 0;
  });
  // What was said of this tray's heat before is no news over this one's clock, and its undo no button there.
  createEffect(
    on(
      createMemo(() => props.heat.actId),
      (actId) => {
        const isEarlier = toast()?.undo?.some(
          (undo) => undo.type === "take-back" && undo.trayId === props.tray.id && undo.actId !== actId,
        );
        if (isEarlier === true) closeToast();
      },
    ),
  );
  const next = (): void =>
    void act({ type: "next-cookie", trayId: props.tray.id }, heat().cookieSet(cookie()));
  const heatOn = (): void => void act({ type: "heat-on", trayId: props.tray.id }, heat().heatIsOn(cookie()));
  function end(result: HeatResult, spoiled?: number): void {
    const said = (result === "not yet" ? heat().stoppedUnset : heat().ended)(props.tray.number);
    const { toolId } = props.heat;
    const input = { type: "end-heat-set", trayId: props.tray.id, result } as const;
    // Together, so that the screen knows of the tool before it sees that the heat is over.
    batch(() => {
      if (act(spoiled === undefined ? input : { ...input, spoiled }, said)) props.onEnded(toolId);
    });
  }
  return (
    <main ref={main} class="heat" data-past={isPast()}>
      <div class="heat-head">
        <p>
          <Show when={byCookie()}>
            <strong aria-live="polite">
              {heat().cookieOf(Math.min(cookie(), props.tray.count), props.tray.count)}
            </strong>
          </Show>
          <span>{tool()?.name ?? words().terms.toolKinds[props.heat.toolKind]}</span>
        </p>
        <FirstAid />
      </div>
      <Show when={!isPaused()}>
        <HeatRing elapsedS={elapsedS()} limits={props.heat.limits} toolKind={props.heat.toolKind} />
      </Show>
      <HotTray tray={props.tray} />
      <section class="heat-panel" aria-live="polite">
        <Show
          when={!isPaused()}
          fallback={
            <>
              <strong>{heat().nextUp(cookie())}</strong>
              <span>{heat().noClock}</span>
            </>
          }
        >
          <strong>{isPast() ? heat().stopNow(isHeard()) : words().cautions.lines["stop-at-dulling"]}</strong>
          <Show when={!isPast() && props.heat.limits.heldTooLongS}>
            {(heldS) => <span>{heat().heldStill(heldS())}</span>}
          </Show>
          <span>
            {isPast() ? heat().passed(props.heat.limits) : heat().stopByLine(props.heat.limits, isHeard())}
          </span>
        </Show>
        <strong>{words().cautions.lines[REMINDERS[props.heat.toolKind].during]}</strong>
        <Show when={hintText()}>{(hint) => <span>{hint()}</span>}</Show>
        <Show when={tool()}>
          {(tool) => <span>{words().cautions.coolDown(tool().kind, tool().coolDownMin)}</span>}
        </Show>
        <Show when={props.goesDark}>{(why) => <span>{heat().goesDark[why()]}</span>}</Show>
        <small>{words().cautions.deferenceShort}</small>
      </section>
      <div class="heat-acts">
        <Show when={isPaused()}>
          <button type="button" class="act white" aria-disabled={!settled()} onClick={whenSettled(heatOn)}>
            {heat().heatOn}
            <small>{heat().heatOnHint(cookie())}</small>
          </button>
        </Show>
        <Show when={!isPaused() && !isLast()}>
          <button type="button" class="act white" aria-disabled={!settled()} onClick={whenSettled(next)}>
            {heat().nextCookie}
            <small>{heat().nextCookieHint}</small>
          </button>
        </Show>
        <button
          type="button"
          class={isLast() && !isPaused() ? "act white" : "act ghost"}
          aria-disabled={!settled()}
          onClick={whenSettled(() => end("set"))}
        >
          {heat().setStop}
          <Show when={isPaused() || !isLast()}>
            <small>{heat().restDries(isPaused() ? cookie() - 1 : cookie(), props.tray.count)}</small>
          </Show>
        </button>
        <div class="heat-links">
          <Show when={!isPaused()}>
            <button type="button" aria-disabled={!settled()} onClick={whenSettled(() => end("not yet"))}>
              {heat().notYet}
            </button>
          </Show>
          <button type="button" aria-disabled={!settled()} onClick={whenSettled(() => setSpoiling(true))}>
            {heat().spoiled}
          </button>
        </div>
      </div>
      <Show when={spoiling()}>
        <SpoiledSheet
          count={props.tray.count}
          onClose={() => setSpoiling(false)}
          onRecord={(count) => {
            setSpoiling(false);
            end("swollen or cracked", count);
          }}
        />
      </Show>
    </main>
  );
}

function SpoiledSheet(props: { count: number; onClose: () => void; onRecord: (count: number) => void }) {
  const { timer, words } = usePhone();
  const heat = () => words().heat;
  const [count, setCount] = createSignal(1);
  const settled = createTapGuard(timer);
  return (
    <Sheet title={heat().spoiledTitle} onClose={props.onClose}>
      <Stepper label={heat().cookies} value={count()} min={1} max={props.count} onChange={setCount} />
      <button
        type="button"
        class="act risk"
        aria-disabled={!settled()}
        onClick={() => {
          if (settled()) props.onRecord(count());
        }}
      >
        {heat().stopAndRecord(count())}
      </button>
      <button type="button" class="plain" onClick={() => props.onClose()}>
        {heat().goOn}
      </button>
    </Sheet>
  );
}
