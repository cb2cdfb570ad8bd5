import { Show, batch, createEffect, createMemo, createSignal, on, onMount } from "solid-js";
import { DEFERENCE_SHORT, OVERHEATING_CARD, REMINDERS, coolDownLine } from "#shared/heat/cautions.ts";
import { cookieUnder } from "#shared/kitchen/model/state.ts";
import type { HeatSet, Tray } from "#shared/kitchen/model/state.ts";
import type { HeatResult } from "#shared/kitchen/model/vocabulary.ts";
import { formatStopwatch } from "#shared/units.ts";
import { Stepper } from "#phone/ui/fields.tsx";
import { FirstAid } from "./cautions.tsx";
import { HotTray } from "./hot-tray.tsx";
import { HeatRing } from "./heat-ring.tsx";
import { stopByWords } from "./heat-words.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { createTapGuard } from "#shared/client/screen/tap-guard.ts";
import { Sheet } from "#phone/ui/sheet.tsx";

/** The heat under way: count up, what to watch, next cookie, stop. */
export function HeatTimer(props: { tray: Tray; heat: HeatSet; onEnded: (toolId: string) => void }) {
  const { board, act, fineMs, timer, toast, closeToast } = usePhone();
  const [spoiling, setSpoiling] = createSignal(false);
  const elapsedS = createMemo(() => Math.max(0, Math.floor((fineMs() - props.heat.lapFromMs) / 1000)));
  const tool = createMemo(() => board.kitchen().tools[props.heat.toolId]);
  const byCookie = (): boolean => props.heat.toolKind === "hot-air";
  const cookie = (): number => cookieUnder(props.tray, props.heat);
  const isLast = (): boolean => !byCookie() || cookie() >= props.tray.count;
  const isPast = (): boolean => elapsedS() >= props.heat.limits.stopByS;
  const isHeard = (): boolean => board.connection().is === "live";
  const toldWords = (): string =>
    isHeard() ? "the whole room is told" : "no connection, the room is not told";
  // A thumb that tapped twice to start, or for the next cookie, must not stop.
  const settled = createTapGuard(timer, () => `${props.heat.actId} ${props.heat.laps.length}`);
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
  const next = (): void => void act({ type: "next-cookie", trayId: props.tray.id }, `Cookie ${cookie()} set`);
  function end(result: HeatResult, spoiled?: number): void {
    const said = result === "not yet" ? "stopped, not set yet" : "heat-set ended";
    const { toolId } = props.heat;
    const wish = { type: "end-heat-set", trayId: props.tray.id, result } as const;
    // Together, so that the screen knows of the tool before it sees that the heat is over.
    batch(() => {
      if (act(spoiled === undefined ? wish : { ...wish, spoiled }, `Tray ${props.tray.number} ${said}`))
        props.onEnded(toolId);
    });
  }
  return (
    <main ref={main} class="heat" data-past={isPast()}>
      <div class="heat-head">
        <p>
          <Show when={byCookie()}>
            <strong aria-live="polite">
              Cookie {Math.min(cookie(), props.tray.count)} of {props.tray.count}
            </strong>
          </Show>
          <span>{tool()?.name ?? props.heat.toolKind}</span>
        </p>
        <FirstAid />
      </div>
      <HeatRing elapsedS={elapsedS()} limits={props.heat.limits} toolKind={props.heat.toolKind} />
      <HotTray tray={props.tray} />
      <section class="heat-panel" aria-live="polite">
        <strong>{isPast() ? `Stop now: ${toldWords()}` : OVERHEATING_CARD.lines[0]?.text}</strong>
        <span>
          {isPast()
            ? `It passed ${formatStopwatch(props.heat.limits.stopByS)} (${props.heat.limits.why}).`
            : stopByWords(props.heat.limits, isHeard())}
        </span>
        <strong>{REMINDERS[props.heat.toolKind].during.text}</strong>
        <Show when={props.heat.limits.note}>{(note) => <span>{note()}</span>}</Show>
        <Show when={tool()}>
          {(tool) => <span>{coolDownLine(tool().kind, tool().coolDownMin).text}</span>}
        </Show>
        <small>{DEFERENCE_SHORT}</small>
      </section>
      <div class="heat-acts">
        <Show when={!isLast()}>
          <button type="button" class="act white" aria-disabled={!settled()} onClick={whenSettled(next)}>
            Set: next cookie
            <small>the next one has its own clock</small>
          </button>
        </Show>
        <button
          type="button"
          class={isLast() ? "act white" : "act ghost"}
          aria-disabled={!settled()}
          onClick={whenSettled(() => end("set"))}
        >
          Set to the touch: stop
          <Show when={!isLast()}>
            <small>
              {cookie()} of {props.tray.count} had heat: the rest dries on
            </small>
          </Show>
        </button>
        <div class="heat-links">
          <button type="button" aria-disabled={!settled()} onClick={whenSettled(() => end("not yet"))}>
            Not set yet: stop
          </button>
          <button type="button" aria-disabled={!settled()} onClick={whenSettled(() => setSpoiling(true))}>
            Cracked or swollen? Stop and record it
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
  const { timer } = usePhone();
  const [count, setCount] = createSignal(1);
  const settled = createTapGuard(timer);
  return (
    <Sheet title="Cracked or swollen" onClose={props.onClose}>
      <Stepper label="Cookies" value={count()} min={1} max={props.count} onChange={setCount} />
      <button
        type="button"
        class="act risk"
        aria-disabled={!settled()}
        onClick={() => {
          if (settled()) props.onRecord(count());
        }}
      >
        Stop and record {count()}
      </button>
      <button type="button" class="plain" onClick={() => props.onClose()}>
        Go on heating
      </button>
    </Sheet>
  );
}
