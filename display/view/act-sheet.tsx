import { createEffect, createMemo, createSignal, For, on, onCleanup, Show } from "solid-js";
import type { JSX } from "solid-js";
import { useWords } from "#shared/client/screen/language.ts";
import type { Board } from "#shared/client/screen/board.ts";
import { undoOf } from "#shared/kitchen/commands/table.ts";
import type { CommandInput } from "#shared/kitchen/model/command.ts";
import type { Refused } from "#shared/client/sync/outbox.ts";
import { createTapGuard } from "#shared/client/screen/tap-guard.ts";
import type { Timer } from "#shared/client/sync/timer.ts";
import { nextAct, readiness } from "#shared/kitchen/tray/route.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import { stillHotUntilMs } from "#shared/kitchen/tray/tool-heat.ts";
import type { Words } from "#shared/words/words.ts";
import { unreachable } from "#shared/outcome.ts";

/** One button of the sheet: its words, and what it asks for. */
interface Choice {
  words: string;
  input: CommandInput;
  /** Of how many of so many cookies: asked for next. */
  ofCookies?: number;
}

/** The one next act of a tray; where a touch or a heat-set ends it, its possible answers. */
function choicesFor(words: Words, board: Board, tray: Tray): Choice[] {
  const trayId = tray.id;
  const state = readiness(board.kitchen(), board.forecasts(), tray, board.nowMs());
  if (state.is === "check by touch")
    return (["still wet", "skinned", "firm"] as const).map((finding) => ({
      words: words.terms.findings[finding],
      input: { type: "touch-test", trayId, finding },
    }));
  const next = nextAct(board.kitchen(), tray);
  switch (next.kind) {
    case "flood":
      return [{ words: words.trays.act(next), input: { type: "start-flooding", trayId } }];
    case "flooding":
      return [{ words: words.trays.act(next), input: { type: "flooded", trayId } }];
    case "heat":
      return [
        { words: words.trays.act(next), input: { type: "end-heat-set", trayId, result: "set" } },
        { words: words.wall.sheet.notSet, input: { type: "end-heat-set", trayId, result: "not yet" } },
        {
          words: words.wall.sheet.swollen,
          input: { type: "end-heat-set", trayId, result: "swollen or cracked" },
          ofCookies: tray.count,
        },
      ];
    case "pack":
      return [{ words: words.trays.act(next), input: { type: "pack", trayId } }];
    case "packed":
      return [];
    default:
      return unreachable(next);
  }
}

/** "1", "2" … of a choice that counts cookies. */
const countsFor = ({ input, ofCookies = 1 }: Choice): Choice[] =>
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
  const [counting, setCounting] = createSignal<Choice>();
  const [refused, setRefused] = createSignal<{ choice: Choice; refusal: Refused }>();
  const heat = createMemo(() => {
    const standing = tray()?.standing;
    return standing?.stage === "heat-set" ? standing.heat : undefined;
  });
  // The same choices keep their buttons while time goes by: a finger that is on one must lift from it.
  const choices = createMemo(
    () => {
      const [shown, counted] = [tray(), counting()];
      if (shown === undefined) return [];
      return counted === undefined ? choicesFor(words(), props.board, shown) : countsFor(counted);
    },
    undefined,
    { equals: (before, after) => JSON.stringify(before) === JSON.stringify(after) },
  );
  // What comes under a finger is not meant: a heat-set's end, a risk taken, the next tray, whatever others did meanwhile.
  const settled = createTapGuard(props.timer, () =>
    JSON.stringify([
      chosen(),
      counting()?.words,
      JSON.stringify(refused()?.refusal),
      choices().map((choice) => choice.words),
      heat()?.actId,
      heat()?.laps.length,
    ]),
  );
  // Cookies are counted of one heat: with that gone there is nothing to count.
  createEffect(
    on(
      createMemo(() => heat()?.actId),
      () => setCounting(undefined),
      { defer: true },
    ),
  );
  const close = (event: KeyboardEvent): void => void (event.key === "Escape" && props.onClose());
  document.addEventListener("keydown", close);
  onCleanup(() => document.removeEventListener("keydown", close));

  function act(choice: Choice, acceptRisk = false): void {
    if (!settled()) return;
    const { input, ofCookies } = choice;
    if (ofCookies !== undefined) return void setCounting(choice);
    const takesRisk = input.type === "start-flooding" || input.type === "flooded" || input.type === "pack";
    const before = props.board.kitchen();
    const acted = props.board.act(acceptRisk && takesRisk ? { ...input, acceptRisk } : input);
    if (!acted.ok) return void setRefused({ choice, refusal: acted.refusal });
    const undo = undoOf({ ...input, commandId: acted.commandId }, before);
    const said = [counting()?.words, choice.words].filter((part) => part !== undefined).join(", ");
    props.onDone({
      words: words().wall.sheet.done(tray()?.number ?? 0, said.toLowerCase()),
      ...(undo !== undefined && { undo }),
    });
  }

  return (
    <div class="veil" onClick={() => props.onClose()}>
      <div class="sheet" role="dialog" aria-modal="true" onClick={(event) => event.stopPropagation()}>
        <Show
          when={tray()}
          fallback={
            <>
              <h2>{words().wall.sheet.which}</h2>
              <div class="choices numbers">
                <For each={props.trayIds.flatMap((id) => props.board.kitchen().trays[id] ?? [])}>
                  {(one) => (
                    <button
                      type="button"
                      aria-disabled={!settled()}
                      onClick={() => settled() && setChosen(one.id)}
                    >
                      {one.number}
                    </button>
                  )}
                </For>
              </div>
            </>
          }
        >
          {(tray) => (
            <>
              <h2>
                <b>{tray().number}</b>{" "}
                {counting() === undefined
                  ? props.board.kitchen().designs[tray().designId]?.name
                  : words().wall.sheet.howMany}
              </h2>
              <Show when={stillHotUntilMs(props.board.kitchen(), tray(), props.board.nowMs())}>
                {(untilMs) => <p class="why">{words().cautions.hotTray(untilMs())}</p>}
              </Show>
              <Show
                when={refused()}
                fallback={
                  <div class="choices" classList={{ numbers: counting() !== undefined }}>
                    <For each={choices()}>
                      {(choice) => (
                        <button type="button" aria-disabled={!settled()} onClick={() => act(choice)}>
                          {choice.words}
                        </button>
                      )}
                    </For>
                  </div>
                }
              >
                {(no) => (
                  <>
                    <p class="why">{words().refusals.say(no().refusal.fact)}</p>
                    <Show when={no().refusal.reason === "risk"}>
                      <div class="choices">
                        <button
                          type="button"
                          aria-disabled={!settled()}
                          onClick={() => act(no().choice, true)}
                        >
                          {words().wall.sheet.anyway(no().choice.words)}
                        </button>
                      </div>
                    </Show>
                  </>
                )}
              </Show>
            </>
          )}
        </Show>
        <button type="button" class="plain" onClick={() => props.onClose()}>
          {words().wall.sheet.close}
        </button>
      </div>
    </div>
  );
}
