import { For, Show, createMemo } from "solid-js";
import { refusedOf } from "#shared/client/outbox.ts";
import type { RefusedItem } from "#shared/client/outbox.ts";
import type { Wish } from "#shared/client/solid-board.ts";
import { clockTime } from "#shared/kitchen/wording.ts";
import { usePhone } from "./phone.tsx";

/** Taps the kitchen refused after they were made: each stays until its maker has read it. */
export function Refusals() {
  const { board, zone, act } = usePhone();
  const refused = createMemo(() => refusedOf(board.outbox()));
  const subject = ({ command }: RefusedItem): string => {
    const tray = "trayId" in command ? board.kitchen().trays[command.trayId] : undefined;
    return tray === undefined ? "A tap" : `Tray ${tray.number}`;
  };
  const again = ({ command }: RefusedItem): void => {
    const { commandId, atMs, ...wish } = command;
    board.dismiss(commandId);
    act({ ...wish, acceptRisk: true } as Wish, "Done", atMs);
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
          <p>{item.refusal.message}</p>
          <div class="row">
            <Show when={item.refusal.reason === "risk"}>
              <button type="button" class="plain" onClick={() => again(item)}>
                Do it all the same
              </button>
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
