import { createMemo, For, Show } from "solid-js";
import type { Accessor, JSX } from "solid-js";
import type { WallAlert } from "#display/model/wall-alerts.ts";
import { useWords } from "#shared/client/screen/language.ts";

interface AlertsProps {
  alerts: readonly WallAlert[];
  /** What has no box of its own. */
  more: string;
  nowMs: Accessor<number>;
  isStale: boolean;
  /** A bench that can be touched opens what ends the matter; a wall does not. */
  onOpen?: ((item: { trayIds: readonly string[] }) => void) | undefined;
}

/** What is urgent: number, what to do, who and where, and a clock that counts up. */
export function Alerts(props: AlertsProps): JSX.Element {
  return (
    <div class="alerts" role="alert">
      <For each={props.alerts}>{(alert) => <AlertBox alert={alert} all={props} />}</For>
      <Show when={props.more}>{(more) => <p class="more">{more()}</p>}</Show>
    </div>
  );
}

function AlertBox(props: { alert: WallAlert; all: AlertsProps }): JSX.Element {
  const words = useWords();
  // Whether it still runs is not known while nothing is heard: then only when it began.
  const ran = createMemo(() =>
    props.all.isStale ? "" : words().format.stopwatch((props.all.nowMs() - props.alert.countFromMs) / 1000),
  );
  const open = (): (() => void) | undefined => {
    const [onOpen, trayId] = [props.all.onOpen, props.alert.trayId];
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
        <Show when={props.alert.trayNumber} fallback={<b class="number">!</b>}>
          {(number) => <b class="number">{number()}</b>}
        </Show>
        <p class="head">
          <b class="act" role="heading" aria-level="3">
            {props.alert.head}
          </b>{" "}
          <time class="ran">{ran()}</time>
        </p>
        <p class="body">
          <Show when={props.all.isStale}>
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
