import { createEffect, createMemo, createSignal, For, on, onCleanup, Show } from "solid-js";
import type { JSX } from "solid-js";
import { Cookie } from "#shared/client/cookie/cookie.tsx";
import { alike } from "#shared/client/screen/alike.ts";
import type { Board } from "#shared/client/screen/board.ts";
import { useWords } from "#shared/client/screen/language.ts";
import { createTapGuard } from "#shared/client/screen/tap-guard.ts";
import type { Timer } from "#shared/client/sync/timer.ts";
import type { CommandInput } from "#shared/kitchen/model/command.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import { trayCookie } from "#shared/kitchen/tray/cookie-picture.ts";
import { stillHotUntilMs } from "#shared/kitchen/tray/tool-heat.ts";
import type { RefusedAnswer } from "#shared/protocol/command.ts";
import type { BenchPerson } from "#display/model/bench-person.ts";
import { type Answer, answersFor, countsFor, topicsOf } from "#display/model/sheet-answers.ts";
import { type Choice, Choices } from "./choices.tsx";
import { HeatCautions, TrayLine } from "./sheet-lines.tsx";

/** What was done just now, to be undone for 20 s. */
export interface Done {
  words: string;
  /** Absent where there is nothing to undo: an undo that was refused. */
  undo?: CommandInput;
}

/** A bench's sheet: opened by a tile or a pill, closed by its act. */
export function ActSheet(props: {
  board: Board;
  timer: Timer;
  trayIds: readonly string[];
  /** Who taps here. */
  person: BenchPerson;
  onDone(done: Done): void;
  onClose(): void;
}): JSX.Element {
  const words = useWords();
  const [chosen, setChosen] = createSignal<string | undefined>(
    props.trayIds.length === 1 ? props.trayIds[0] : undefined,
  );
  const tray = createMemo(() => props.board.kitchen().trays[chosen() ?? ""]);
  const [counting, setCounting] = createSignal<Answer>();
  const [topic, setTopic] = createSignal<string>();
  /** A heat-set that is about to start: its cautions stand above its button. */
  const [heating, setHeating] = createSignal<Answer>();
  const [isAsking, setAsking] = createSignal(false);
  /** Who is tapping comes first where nobody was named lately. */
  const asksWho = (): boolean =>
    tray() !== undefined &&
    props.person.people().length > 0 &&
    (isAsking() || props.person.is() === undefined);
  const [refused, setRefused] = createSignal<{ answer: Answer; refusal: RefusedAnswer }>();
  const heat = createMemo(() => {
    const status = tray()?.status;
    return status?.stage === "heat-set" ? status.heat : undefined;
  });
  const topics = createMemo(() => {
    const shown = tray();
    return shown === undefined ? [] : topicsOf(words(), props.board, shown);
  });
  // The same choices keep their buttons while time goes by: a finger that is on one must lift from it.
  const answers = createMemo(
    () => {
      const [shown, counted] = [tray(), counting()];
      if (shown === undefined) return [];
      if (counted !== undefined) return countsFor(counted);
      const opened = topics().find((one) => one.words === topic());
      return opened?.answers ?? answersFor(words(), props.board, shown);
    },
    undefined,
    alike,
  );
  const choices = createMemo((): Choice[] => {
    const no = refused();
    if (tray() === undefined)
      return props.trayIds
        .flatMap((id) => props.board.kitchen().trays[id] ?? [])
        .map(({ id, number }) => ({ words: String(number), does: () => setChosen(id) }));
    if (asksWho())
      return props.person.people().map(({ id, name }) => ({
        words: name,
        does: () => {
          props.person.choose(id);
          setAsking(false);
        },
      }));
    const hot = heating();
    if (no === undefined && hot !== undefined) return [{ words: words().heat.start, does: () => send(hot) }];
    if (no === undefined)
      return answers().map((answer) => ({ words: answer.words, does: () => act(answer) }));
    const { anyway } = words().wall.sheet;
    return no.refusal.reason === "risk"
      ? [{ words: anyway(no.answer.words), does: () => act(no.answer, true) }]
      : [];
  });
  // What comes under a finger is not meant: a heat-set's end, a risk taken, the next tray, whatever others did meanwhile.
  const settled = createTapGuard(props.timer, () =>
    JSON.stringify([
      [chosen(), counting()?.words, refused()?.refusal, heat()?.actId, heat()?.laps.length],
      [asksWho(), topic(), heating()?.words],
      answers().map((answer) => answer.words),
    ]),
  );
  // Cookies are counted of one heat: with that gone there is nothing to count.
  const heatAct = createMemo(() => heat()?.actId);
  createEffect(on(heatAct, () => setCounting(undefined), { defer: true }));
  const close = (event: KeyboardEvent): void => void (event.key === "Escape" && props.onClose());
  document.addEventListener("keydown", close);
  onCleanup(() => document.removeEventListener("keydown", close));

  function act(answer: Answer, acceptRisk = false): void {
    if (answer.ofCookies !== undefined) return void setCounting(answer);
    if (answer.isHeat === true) return void setHeating(answer);
    send(answer, acceptRisk);
  }
  function send(answer: Answer, acceptRisk = false): void {
    const doneBy = props.person.is();
    props.person.tapped();
    const input = { ...answer.input, ...(doneBy !== undefined && { doneBy }) };
    const takesRisk = input.type === "start-flooding" || input.type === "flooded" || input.type === "pack";
    const acted = props.board.act(acceptRisk && takesRisk ? { ...input, acceptRisk } : input);
    if (!acted.ok) return void setRefused({ answer, refusal: acted.refusal });
    const { undo } = acted;
    const said = [counting()?.words, answer.words].filter((part) => part !== undefined).join(", ");
    props.onDone({
      words: words().wall.sheet.done(tray()?.number ?? 0, said.toLowerCase()),
      ...(undo !== undefined && { undo: { ...undo, ...(doneBy !== undefined && { doneBy }) } }),
    });
  }

  /** Nothing but the next act is asked for yet. */
  const isPlain = (): boolean =>
    tray() !== undefined &&
    ![counting(), refused(), heating(), topic()].some((one) => one !== undefined) &&
    !asksWho();
  const heatTool = () => {
    const input = heating()?.input;
    return input?.type === "start-heat-set" ? props.board.kitchen().tools[input.toolId] : undefined;
  };
  const title = (tray: Tray): string | undefined =>
    counting() === undefined
      ? props.board.kitchen().designs[tray.designId]?.name
      : words().wall.sheet.howMany;
  return (
    <div class="veil" onClick={() => props.onClose()}>
      <div class="sheet" role="dialog" aria-modal="true" onClick={(event) => event.stopPropagation()}>
        <Show when={tray()} fallback={<h2>{words().wall.sheet.which}</h2>}>
          {(tray) => (
            <>
              <h2>
                <span>
                  <b>{tray().number}</b> {title(tray())}
                </span>
                <Show when={trayCookie(props.board.kitchen(), tray())}>
                  {(point) => <Cookie point={point()} icings={props.board.kitchen().icings} />}
                </Show>
              </h2>
              <TrayLine board={props.board} tray={tray()} />
              <Show when={stillHotUntilMs(props.board.kitchen(), tray(), props.board.nowMs())}>
                {(untilMs) => <b>{words().trays.hot(untilMs())}</b>}
              </Show>
              <Show when={refused()}>{(no) => <b>{words().refusals.say(no().refusal.fact)}</b>}</Show>
              <Show when={asksWho()}>
                <p>{words().desk.bench.who}</p>
              </Show>
              <Show when={!asksWho() && heatTool()}>
                {(tool) => <HeatCautions board={props.board} tray={tray()} tool={tool()} />}
              </Show>
            </>
          )}
        </Show>
        <Choices
          of={choices()}
          isOff={!settled()}
          areNumbers={!asksWho() && (tray() === undefined || counting() !== undefined)}
        />
        <Show when={isPlain()}>
          <div class="topics">
            <For each={topics()}>
              {(one) => (
                <button
                  type="button"
                  class="plain"
                  aria-disabled={!settled()}
                  onClick={() => settled() && setTopic(one.words)}
                >
                  {one.words}
                </button>
              )}
            </For>
          </div>
        </Show>
        <Show when={!asksWho() && tray() !== undefined && props.person.name()}>
          {(name) => (
            <button type="button" class="plain" onClick={() => setAsking(true)}>
              {words().desk.bench.by(name())}
            </button>
          )}
        </Show>
        <button type="button" class="plain" onClick={() => props.onClose()}>
          {words().wall.sheet.close}
        </button>
      </div>
    </div>
  );
}
