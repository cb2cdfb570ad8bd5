import { createMemo, For, Show } from "solid-js";
import type { JSX } from "solid-js";
import { useWords } from "#shared/client/screen/language.ts";
import type { Board } from "#shared/client/screen/board.ts";
import { refusedOf, riskTaken } from "#shared/client/sync/outbox.ts";
import type { RefusedItem } from "#shared/client/sync/outbox.ts";
import { createTapGuard } from "#shared/client/screen/tap-guard.ts";
import type { Timer } from "#shared/client/sync/timer.ts";

/** More of them at once would cover the board; the next comes when one has been read. */
const SHOWN = 2;

/** What was tapped on this bench and refused afterwards, or may be gone with a log put back: each stays until someone has read it. */
export function Refusals(props: { board: Board; timer: Timer }): JSX.Element {
  const words = useWords();
  const refused = createMemo(() => refusedOf(props.board.outbox()));
  // It comes up under a finger that was about something else.
  const settled = createTapGuard(props.timer, () =>
    String(refused().map(({ command }) => command.commandId)),
  );
  const subject = ({ command }: RefusedItem): string => {
    const kitchen = props.board.kitchen();
    const tray = "trayId" in command ? kitchen.trays[command.trayId] : undefined;
    const { alerts, format } = words();
    const whose = tray === undefined ? alerts.refused.aTap : alerts.tray(tray.number);
    const at = command.atMs === undefined ? undefined : format.time(command.atMs);
    return alerts.refused.notTaken(whose, at);
  };
  return (
    <>
      <Show when={props.board.wasReplaced()}>
        <section class="refusal" role="alert">
          <p>
            <strong>{words().wall.sheet.replaced.title}</strong> {words().wall.sheet.replaced.text}
          </p>
          <button type="button" onClick={() => props.board.dismissReplaced()}>
            {words().alerts.refused.understood}
          </button>
        </section>
      </Show>
      <For each={refused().slice(0, SHOWN)}>
        {(item) => (
          <section class="refusal" role="alert">
            <p>
              <strong>{subject(item)}</strong> {words().refusals.say(item.refusal.fact)}
            </p>
            <Show when={riskTaken(item)}>
              {(taken) => (
                <button
                  type="button"
                  aria-disabled={!settled()}
                  onClick={() => {
                    if (!settled()) return;
                    const { input, atMs } = taken();
                    props.board.dismiss(item.command.commandId);
                    props.board.act(input, atMs);
                  }}
                >
                  {words().alerts.refused.anyway}
                </button>
              )}
            </Show>
            <button type="button" onClick={() => props.board.dismiss(item.command.commandId)}>
              {words().alerts.refused.understood}
            </button>
          </section>
        )}
      </For>
      <Show when={refused().length > SHOWN}>
        <p class="refusal">{words().wall.more(refused().length - SHOWN)}</p>
      </Show>
    </>
  );
}
