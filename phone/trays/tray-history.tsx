import { For, Show, createMemo } from "solid-js";
import { Cookie } from "#shared/client/cookie/cookie.tsx";
import { actFact } from "#shared/kitchen/tray/act-facts.ts";
import type { Risk } from "#shared/kitchen/model/risk.ts";
import type { TrayAct } from "#shared/kitchen/model/event.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import { cookieNumbers } from "#shared/kitchen/tray/fold.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";
import { usePhone } from "#phone/app/phone.tsx";

/** Everything done to a tray, latest first; what was taken back stays, struck through. */
export function TrayHistory(props: { tray: Tray; design: Design }) {
  const { board, words, isLead, act } = usePhone();
  const who = (by: string): string =>
    by === "kitchen"
      ? words().trays.theKitchen
      : by === board.me.personId
        ? words().trays.you
        : (board.kitchen().people[by]?.name ?? words().trays.someone);
  const numbers = createMemo(() => cookieNumbers(props.tray, props.design));
  const actText = (done: TrayAct): string =>
    words().format.sentence(
      words().acts.say(actFact(board.kitchen(), props.design, done, numbers().get(done.actId))),
    );
  const riskText = (risk: Risk): string => (typeof risk === "string" ? risk : words().acts.risk(risk));
  const isWaiting = (actId: string): boolean =>
    board.outbox().some((item) => item.is === "waiting" && item.command.commandId === actId);
  return (
    <Show when={props.tray.history.length > 0}>
      <details class="history">
        <summary>{words().trays.history(props.tray.history.length)}</summary>
        <ol>
          <For each={props.tray.history.toReversed()}>
            {(entry) => (
              <li data-taken-back={entry.takenBack !== undefined}>
                <time>{words().format.when(entry.act.atMs, board.nowMs())}</time>
                <span class="history-words">
                  <span>{actText(entry.act)}</span>
                  <small>
                    {who(entry.act.by)}
                    <Show when={"risk" in entry.act && entry.act.risk}>
                      {(risk) => <> · {words().trays.accepted(riskText(risk()))}</>}
                    </Show>
                    <Show when={"note" in entry.act && entry.act.note}>{(note) => <> · {note()}</>}</Show>
                    <Show when={isWaiting(entry.act.actId)}> · {words().trays.waitingToSend}</Show>
                    <Show when={entry.takenBack}>
                      {(back) => <> · {words().trays.takenBackBy(who(back().by))}</>}
                    </Show>
                  </small>
                </span>
                <Show when={entry.act.type === "flooded" && entry.act}>
                  {(laid) => (
                    <Cookie
                      class="history-cookie"
                      point={{ design: props.design, laid: laid().layer + 1 }}
                      icings={board.kitchen().icings}
                    />
                  )}
                </Show>
                <Show
                  when={entry.takenBack === undefined && (isLead() || entry.act.by === board.me.personId)}
                >
                  <button
                    type="button"
                    class="small"
                    onClick={() =>
                      act(
                        { type: "take-back", trayId: props.tray.id, actId: entry.act.actId },
                        words().trays.said.takenBack,
                      )
                    }
                  >
                    {words().trays.takeBack}
                  </button>
                </Show>
              </li>
            )}
          </For>
        </ol>
      </details>
    </Show>
  );
}
