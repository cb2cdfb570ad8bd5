import { For, Show, createMemo } from "solid-js";
import { refusedOf, riskTaken } from "#shared/client/sync/outbox.ts";
import type { RefusedItem } from "#shared/client/sync/outbox.ts";
import { clockTime } from "#shared/words/wording.ts";
import { usePhone } from "#phone/app/phone.tsx";

/** Taps the kitchen refused after they were made: each stays until its maker has read it. */
export function Refusals() {
  const { board, words, zone, act } = usePhone();
  const refused = createMemo(() => refusedOf(board.outbox()));
  const subject = ({ command }: RefusedItem): string => {
    const tray = "trayId" in command ? board.kitchen().trays[command.trayId] : undefined;
    return tray === undefined ? "A tap" : `Tray ${tray.number}`;
  };
  return (
    <For each={refused()}>
      {(item) => (
        <section class="refusal" role="alert">
          <strong>
            {subject(item)}
            <Show when={item.command.atMs}>
              {(atMs) => <> · your tap of {clockTime(atMs(), zone())}</>}
            </Show>{" "}
            was not taken
          </strong>
          <p>{words().refusals.say(item.refusal.fact)}</p>
          <div class="row">
            <Show when={riskTaken(item)}>
              {(taken) => (
                <button
                  type="button"
                  class="plain"
                  onClick={() => {
                    const { wish, atMs } = taken();
                    board.dismiss(item.command.commandId);
                    act(wish, "Done", atMs);
                  }}
                >
                  Do it anyway
                </button>
              )}
            </Show>
            <button type="button" class="plain" onClick={() => board.dismiss(item.command.commandId)}>
              Understood
            </button>
          </div>
        </section>
      )}
    </For>
  );
}
