import { createEffect, createMemo, createSignal, on, onCleanup, Show } from "solid-js";
import type { JSX } from "solid-js";
import { useWords } from "#shared/client/screen/language.ts";
import type { Board } from "#shared/client/screen/board.ts";
import { undoOf } from "#shared/kitchen/commands/table.ts";
import type { CommandInput } from "#shared/kitchen/model/command.ts";
import type { RefusedAnswer } from "#shared/protocol/command.ts";
import { createTapGuard } from "#shared/client/screen/tap-guard.ts";
import type { Timer } from "#shared/client/sync/timer.ts";
import { nextAct, readiness } from "#shared/kitchen/tray/route.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import { stillHotUntilMs } from "#shared/kitchen/tray/tool-heat.ts";
import type { Words } from "#shared/words/words.ts";
import { Cookie } from "#shared/client/cookie/cookie.tsx";
import { trayCookie } from "#shared/kitchen/tray/cookie-picture.ts";
import { type Choice, Choices } from "./choices.tsx";
import { unreachable } from "#shared/outcome.ts";

/** One possible answer: its words, and what it asks for. */
interface Answer {
  words: string;
  input: CommandInput;
  /** Of how many of so many cookies: asked for next. */
  ofCookies?: number;
}

/** The one next act of a tray; where a touch or a heat-set ends it, its possible answers. */
function answersFor(words: Words, board: Board, tray: Tray): Answer[] {
  const { id: trayId, count: ofCookies } = tray;
  if (readiness(board.kitchen(), board.forecasts(), tray, board.nowMs()).is === "check by touch")
    return (["still wet", "skinned", "firm"] as const).map((finding) => ({
      words: words.terms.findings[finding],
      input: { type: "touch-test", trayId, finding },
    }));
  const next = nextAct(board.kitchen(), tray);
  const ask = (input: CommandInput, said = words.trays.act(next)): Answer => ({ words: said, input });
  const { notSet, swollen } = words.wall.sheet;
  switch (next.kind) {
    case "flood":
      return [ask({ type: "start-flooding", trayId })];
    case "flooding":
      return [ask({ type: "flooded", trayId })];
    case "heat":
      return [
        // Between two cookies the heat is on none, so that none can be found not set.
        ...(next.heat.pausedSinceMs === undefined
          ? []
          : [ask({ type: "heat-on", trayId }, words.heat.heatOn)]),
        ask({ type: "end-heat-set", trayId, result: "set" }),
        ...(next.heat.pausedSinceMs === undefined
          ? [ask({ type: "end-heat-set", trayId, result: "not yet" }, notSet)]
          : []),
        { ...ask({ type: "end-heat-set", trayId, result: "swollen or cracked" }, swollen), ofCookies },
      ];
    case "pack":
      return [ask({ type: "pack", trayId })];
    case "packed":
      return [];
    default:
      return unreachable(next);
  }
}

/** "1", "2" … of an answer that counts cookies. */
const countsFor = ({ input, ofCookies = 1 }: Answer): Answer[] =>
  Array.from({ length: ofCookies }, (_, k) => ({
    words: String(k + 1),
    input: input.type === "end-heat-set" ? { ...input, spoiled: k + 1 } : input,
  }));

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
  onDone(done: Done): void;
  onClose(): void;
}): JSX.Element {
  const words = useWords();
  const [chosen, setChosen] = createSignal<string | undefined>(
    props.trayIds.length === 1 ? props.trayIds[0] : undefined,
  );
  const tray = createMemo(() => props.board.kitchen().trays[chosen() ?? ""]);
  const [counting, setCounting] = createSignal<Answer>();
  const [refused, setRefused] = createSignal<{ answer: Answer; refusal: RefusedAnswer }>();
  const heat = createMemo(() => {
    const status = tray()?.status;
    return status?.stage === "heat-set" ? status.heat : undefined;
  });
  // The same choices keep their buttons while time goes by: a finger that is on one must lift from it.
  const answers = createMemo(
    () => {
      const [shown, counted] = [tray(), counting()];
      if (shown === undefined) return [];
      return counted === undefined ? answersFor(words(), props.board, shown) : countsFor(counted);
    },
    undefined,
    { equals: (before, after) => JSON.stringify(before) === JSON.stringify(after) },
  );
  const choices = createMemo((): Choice[] => {
    const no = refused();
    if (tray() === undefined)
      return props.trayIds
        .flatMap((id) => props.board.kitchen().trays[id] ?? [])
        .map(({ id, number }) => ({ words: String(number), does: () => setChosen(id) }));
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
    const { input, ofCookies } = answer;
    if (ofCookies !== undefined) return void setCounting(answer);
    const takesRisk = input.type === "start-flooding" || input.type === "flooded" || input.type === "pack";
    const before = props.board.kitchen();
    const acted = props.board.act(acceptRisk && takesRisk ? { ...input, acceptRisk } : input);
    if (!acted.ok) return void setRefused({ answer, refusal: acted.refusal });
    const undo = undoOf({ ...input, commandId: acted.commandId }, before);
    const said = [counting()?.words, answer.words].filter((part) => part !== undefined).join(", ");
    props.onDone({
      words: words().wall.sheet.done(tray()?.number ?? 0, said.toLowerCase()),
      ...(undo !== undefined && { undo }),
    });
  }

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
              <Show when={props.board.kitchen().orders[tray().orderId]}>
                {(order) => <p class="soft">{order().name}</p>}
              </Show>
              <Show when={stillHotUntilMs(props.board.kitchen(), tray(), props.board.nowMs())}>
                {(untilMs) => <b>{words().cautions.hotTray(untilMs())}</b>}
              </Show>
              <Show when={refused()}>{(no) => <b>{words().refusals.say(no().refusal.fact)}</b>}</Show>
            </>
          )}
        </Show>
        <Choices
          of={choices()}
          isOff={!settled()}
          areNumbers={tray() === undefined || counting() !== undefined}
        />
        <button type="button" class="plain" onClick={() => props.onClose()}>
          {words().wall.sheet.close}
        </button>
      </div>
    </div>
  );
}
