import { createMemo, For, Show } from "solid-js";
import type { JSX } from "solid-js";
import type { WallAlert } from "#display/model/wall-alerts.ts";
import type { WallView } from "#display/model/wall-view.ts";
import { useWords } from "#shared/client/screen/language.ts";
import { fitText } from "./fit.ts";

/** What is urgent: number, what to do, who and where, and a clock that counts up; in so many lines what has no box of its own. */
export function Alerts(props: { view: WallView }): JSX.Element {
  return (
    <div class="alerts" role="alert">
      <For each={props.view.shown.alerts}>{(alert) => <AlertBox alert={alert} view={props.view} />}</For>
      <Show when={props.view.moreAlerts().length > 0}>
        <p class="more" ref={(line) => fitText(line, props.view.moreAlerts, 3)} />
      </Show>
    </div>
  );
}

function AlertBox(props: { alert: WallAlert; view: WallView }): JSX.Element {
  const words = useWords();
  // Whether it still runs is not known while nothing is heard: then only when it began.
  const ran = createMemo(() =>
    props.view.isStale()
      ? ""
      : words().format.stopwatch((props.view.nowMs() - props.alert.countFromMs) / 1000),
  );
  const open = (): (() => void) | undefined => {
    const [{ onOpen }, { trayId }] = [props.view, props.alert];
    return onOpen && trayId !== undefined ? () => onOpen({ trayIds: [trayId] }) : undefined;
  };
  // The whole box takes the tap, its button among it.
  return (
    <article
      class="alert"
      data-class={props.alert.class}
      data-opens={open() && true}
      onClick={() => open()?.()}
    >
      <div class="words">
        <b class="number">{props.alert.trayNumber ?? "!"}</b>
        <p class="head">
          <b class="act" role="heading" aria-level="3">
            {props.alert.head}
          </b>{" "}
          <time class="ran">{ran()}</time>
        </p>
        <p class="body">
          <Show when={props.view.isStale()}>
            {words().wall.alert.asLastHeard(words().format.time(props.alert.countFromMs))} ·{" "}
          </Show>
          <Show when={props.alert.acknowledgedBy}>
            {(name) => <b>{words().wall.alert.seenBy(name())} · </b>}
          </Show>
          {props.alert.body}
        </p>
      </div>
      <Show when={open()}>
        <button
          type="button"
          class="open"
          aria-label={words().wall.alert.openTray(props.alert.trayNumber ?? 0)}
        >
          {words().wall.alert.open}
        </button>
      </Show>
    </article>
  );
}
