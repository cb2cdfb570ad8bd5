import { For, Show, createMemo } from "solid-js";
import { refusedOf, riskTaken } from "#shared/client/sync/outbox.ts";
import type { RefusedItem } from "#shared/client/sync/outbox.ts";
import { usePhone } from "#phone/app/phone.tsx";

/** Taps the kitchen refused after they were made: each stays until its maker has read it. */
export function Refusals() {
  const { board, words, act } = usePhone();
  const refused = createMemo(() => refusedOf(board.outbox()));
  const refusedWords = () => words().alerts.refused;
  const heading = ({ command }: RefusedItem): string => {
    const tray = "trayId" in command ? board.kitchen().trays[command.trayId] : undefined;
    const subject = tray === undefined ? refusedWords().aTap : words().alerts.tray(tray.number);
    const at = command.atMs === undefined ? undefined : words().format.time(command.atMs);
    return refusedWords().notTaken(subject, at);
  };
  return (
    <For each={refused()}>
      {(item) => (
        <section class="refusal" role="alert">
          <strong>{heading(item)}</strong>
          <p>{words().refusals.say(item.refusal.fact)}</p>
          <div class="row">
            <Show when={riskTaken(item)}>
              {(taken) => (
                <button
                  type="button"
                  class="plain"
                  onClick={() => {
                    const { input, atMs } = taken();
                    board.dismiss(item.command.commandId);
                    act(input, refusedWords().done, atMs);
                  }}
                >
                  {refusedWords().anyway}
                </button>
              )}
            </Show>
            <button type="button" class="plain" onClick={() => board.dismiss(item.command.commandId)}>
              {refusedWords().understood}
            </button>
          </div>
        </section>
      )}
    </For>
  );
}
