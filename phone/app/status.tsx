import { type JSX, Show, createMemo } from "solid-js";
import { CannotSave } from "./parts.tsx";
import { useFirst } from "./phone.tsx";

/** How many taps are not yet sent. */
export const createWaiting = () => {
  const { board } = useFirst();
  return createMemo(() => board.outbox().filter(({ is }) => is === "waiting").length);
};

/** Whether this phone shows the kitchen as it is, and can be heard. Never "live" when it is not. */
export function Status() {
  const { board, words, alarm } = useFirst();
  const waiting = createWaiting();
  const status = () => words().app.status;
  const text = createMemo(() => {
    const { is } = board.connection();
    if (is === "live" && board.saveTrouble() !== undefined) return status().cannotSave;
    return is === "live" && waiting() > 0 ? status().sending(waiting()) : status()[is];
  });
  const isLive = () => board.connection().is === "live" && board.saveTrouble() === undefined;
  return (
    <p class="status" role="status" data-live={isLive()}>
      <span class="dot" aria-hidden="true" />
      <span>
        {text()}
        <Show when={board.practice()}>
          <span class="practice"> · {status().practice(board.speed())}</span>
        </Show>
      </span>
      <Show when={!alarm.canSound()}>
        <span> · {status().noSound}</span>
      </Show>
      <Show when={board.connection().is === "lost" && board.heardAtMs()}>
        {(heardAtMs) => (
          <span class="visually-hidden">
            {" "}
            {status().since(words().format.when(heardAtMs(), board.nowMs()))}
          </span>
        )}
      </Show>
    </p>
  );
}

/** Across the top while there is no connection, or the server cannot save: since when, and what waits. */
export function LostBar() {
  const { board, words } = useFirst();
  const waiting = createWaiting();
  const app = () => words().app;
  const is = () => board.connection().is;
  const since = () => words().format.when(board.heardAtMs() ?? board.nowMs(), board.nowMs());
  return (
    <>
      <CannotSave />
      <Show when={is() === "outdated"}>
        <Bar title={app().outdated} text={app().isOutdated(waiting())}>
          <button type="button" class="plain" onClick={() => window.location.reload()}>
            {app().reload}
          </button>
        </Bar>
      </Show>
      <Show when={board.wasReplaced()}>
        <Bar title={app().replaced.title} text={app().replaced.text}>
          <button type="button" class="plain" onClick={() => board.dismissReplaced()}>
            {app().understood}
          </button>
        </Bar>
      </Show>
      <Show when={is() === "lost"}>
        <Bar title={app().lost.title(since())} text={app().lost.text(waiting())} isQuiet>
          <Show when={!board.outboxKeeps()}>
            <span>{app().lost.keepsNothing}</span>
          </Show>
        </Bar>
      </Show>
    </>
  );
}

/** `isQuiet`: read out when there is time for it. */
export const Bar = (props: { title: string; text?: string; isQuiet?: boolean; children?: JSX.Element }) => (
  <section class="lost-bar" {...(props.isQuiet ? { "aria-live": "polite" } : { role: "alert" })}>
    <strong>{props.title}</strong>
    <Show when={props.text}>
      <span>{props.text}</span>
    </Show>
    {props.children}
  </section>
);
