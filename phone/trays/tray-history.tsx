import { For, Show, createMemo } from "solid-js";
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
      words().refusals.act(actFact(board.kitchen(), props.design, done, numbers().get(done.actId))),
    );
  const riskText = (risk: Risk): string => (typeof risk === "string" ? risk : words().refusals.risk(risk));
  const isWaiting = (actId: string): boolean =>
    board.outbox().some((item) => item.is === "waiting" && item.command.commandId === actId);
  return (
    <Show when={props.tray.deeds.length > 0}>
      <details class="history">
        <summary>{words().trays.history(props.tray.deeds.length)}</summary>
        <ol>
          <For each={props.tray.deeds.toReversed()}>
            {(deed) => (
              <li data-taken-back={deed.takenBack !== undefined}>
                <time>{words().format.when(deed.act.atMs, board.nowMs())}</time>
                <span class="history-words">
                  <span>{actText(deed.act)}</span>
                  <small>
                    {who(deed.act.by)}
                    <Show when={"risk" in deed.act && deed.act.risk}>
                      {(risk) => <> · {words().trays.accepted(riskText(risk()))}</>}
                    </Show>
                    <Show when={"note" in deed.act && deed.act.note}>{(note) => <> · {note()}</>}</Show>
                    <Show when={isWaiting(deed.act.actId)}> · {words().trays.waitingToSend}</Show>
                    <Show when={deed.takenBack}>
                      {(back) => <> · {words().trays.takenBackBy(who(back().by))}</>}
                    </Show>
                  </small>
                </span>
                <Show when={deed.takenBack === undefined && (isLead() || deed.act.by === board.me.personId)}>
                  <button
                    type="button"
                    class="small"
                    onClick={() =>
                      act(
                        { type: "take-back", trayId: props.tray.id, actId: deed.act.actId },
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
