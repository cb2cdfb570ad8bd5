import { For, Show, createMemo } from "solid-js";
import type { Connection } from "#shared/client/sync/link.ts";
import { usePhone } from "./phone.tsx";
import { sayWhen } from "#phone/ui/when.ts";

const OFF_LINE: Readonly<Record<Exclude<Connection["is"], "live">, string>> = {
  connecting: "connecting…",
  lost: "no connection",
  refused: "not joined",
  outdated: "reload this page",
};

/** Whether this phone shows the kitchen as it is, and can be heard. Never "live" when it is not. */
export function Status() {
  const { board, zone, alarm } = usePhone();
  const waiting = createMemo(() => board.outbox().filter((item) => item.is === "waiting").length);
  const words = createMemo(() => {
    const { is } = board.connection();
    if (is === "live" && board.cannotSave()) return "server cannot save";
    if (is === "live") return waiting() > 0 ? `sending ${taps(waiting())}` : "live";
    return OFF_LINE[is];
  });
  return (
    <p class="status" role="status" data-live={board.connection().is === "live" && !board.cannotSave()}>
      <span class="dot" aria-hidden="true" />
      <span>
        {words()}
        <Show when={board.practice()}>
          <span class="practice"> · practice{board.speed() > 1 ? ` ×${board.speed()}` : ""}</span>
        </Show>
      </span>
      <Show when={!alarm.canSound()}>
        <span> · no sound: tap</span>
      </Show>
      <Show when={board.connection().is === "lost" && board.heardAtMs()}>
        {(heardAtMs) => (
          <span class="visually-hidden"> since {sayWhen(heardAtMs(), zone(), board.nowMs())}</span>
        )}
      </Show>
    </p>
  );
}

/** What the server cannot check: above the page like what is urgent, since an alert may be missing for it. */
export function ProblemBar() {
  const { board } = usePhone();
  return (
    <Show when={board.connection().is === "live" && board.problems().length > 0}>
      <div class="problems">
        <For each={board.problems()}>
          {(problem) => (
            <section class="lost-bar" role="alert">
              <strong>{problem}</strong>
            </section>
          )}
        </For>
      </div>
    </Show>
  );
}

/** Across the top while there is no connection, or the server cannot save: since when, and what waits. */
export function LostBar() {
  const { board, zone, words } = usePhone();
  const waiting = createMemo(() => board.outbox().filter((item) => item.is === "waiting").length);
  return (
    <>
      <Show when={board.connection().is === "live" && board.cannotSave()}>
        <section class="lost-bar" role="alert">
          <strong>The server cannot save</strong>
          <span>
            {waiting() === 0 ? "What you tap waits here" : `Waiting: ${taps(waiting())}`}, and is sent once it
            can. Alarms go on. {board.saveRemedy()}
          </span>
        </section>
      </Show>
      <Show when={board.connection().is === "outdated"}>
        <section class="lost-bar" role="alert">
          <strong>{words().app.outdated}</strong>
          <span>
            {waiting() === 0 ? "What you tap is kept" : `Waiting: ${taps(waiting())}`}, and sent after that.
            What is shown is as last heard.
          </span>
          <button type="button" class="plain" onClick={() => window.location.reload()}>
            Reload
          </button>
        </section>
      </Show>
      <Show when={board.wasReplaced()}>
        <section class="lost-bar" role="alert">
          <strong>The kitchen was put back to an earlier copy</strong>
          <span>What was done after that copy is not on the board. Look through your trays.</span>
          <button type="button" class="plain" onClick={() => board.dismissReplaced()}>
            Understood
          </button>
        </section>
      </Show>
      <Show when={board.connection().is === "lost"}>
        <section class="lost-bar" aria-live="polite">
          <strong>
            No connection since {sayWhen(board.heardAtMs() ?? board.nowMs(), zone(), board.nowMs())}
          </strong>
          <span>
            {waiting() === 0
              ? "What you tap is kept and sent once when it is back. Others' taps are not shown."
              : `Waiting: ${taps(waiting())} to send, each once.`}
          </span>
          <Show when={!board.outboxKeeps()}>
            <span>This phone keeps nothing through a reload: leave this page open.</span>
          </Show>
        </section>
      </Show>
    </>
  );
}

export const taps = (count: number): string => `${count} ${count === 1 ? "tap" : "taps"}`;
