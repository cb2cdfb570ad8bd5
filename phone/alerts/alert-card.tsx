import { For, Show } from "solid-js";
import { mayPutOff, type ActiveAlert } from "#shared/kitchen/model/alert.ts";
import { formatStopwatch } from "#shared/units.ts";
import { usePhone } from "#phone/app/phone.tsx";

/** By their keys, so that a card stays itself while its alert changes. */
export function AlertCards(props: { alerts: readonly ActiveAlert[]; isLine?: boolean }) {
  return (
    <For each={props.alerts.map(({ key }) => key)}>
      {(key) => (
        <Show when={props.alerts.find((alert) => alert.key === key)}>
          {(alert) => <AlertCard alert={alert()} isLine={props.isLine === true} />}
        </Show>
      )}
    </For>
  );
}

/** `isLine`: tray, matter, clock and Seen, no more; a tap on its words opens the rest where `onWords` is given. */
export function AlertCard(props: { alert: ActiveAlert; isLine?: boolean; onWords?: () => void }) {
  const { board, act } = usePhone();
  /** This screen's own warning, which no one else sees and which clears with its cause. */
  const isAlone = (): boolean => board.kitchen().alerts[props.alert.key] === undefined;
  const acknowledged = (): boolean => props.alert.acknowledged !== undefined;
  /** The tool that was left on: said off, or said in use, the alert clears. */
  const leftOn = () => (props.alert.kind === "tool-left-on" ? props.alert.toolId : undefined);
  const where = (number: number): string =>
    board.kitchen().trays[props.alert.trayId ?? ""]?.standing.stage === "heat-set"
      ? `#/t/${number}/heat`
      : `#/t/${number}`;
  const who = (): string => {
    const by = props.alert.acknowledged?.by;
    return by === board.me.personId ? "you" : (board.kitchen().people[by ?? ""]?.name ?? "someone");
  };
  const words = () => (
    <>
      <strong>{props.alert.what}</strong>
      <Show when={props.isLine !== true && (!acknowledged() || props.alert.class === "urgent")}>
        <span>{props.alert.todo}</span>
      </Show>
      <Show when={acknowledged()}>
        <span>
          seen by {who()}
          {props.isLine === true ? "" : ": it clears by itself"}
        </span>
      </Show>
    </>
  );
  return (
    <article
      class="alert"
      data-line={props.isLine === true}
      data-class={props.alert.class}
      data-seen={acknowledged()}
    >
      <Show when={props.alert.trayNumber}>
        {(number) => (
          <a class="alert-number" href={where(number())} aria-label={`Tray ${number()}`}>
            {number()}
          </a>
        )}
      </Show>
      <Show when={props.onWords} fallback={<div class="alert-words">{words()}</div>}>
        {(onWords) => (
          <button
            type="button"
            class="alert-words"
            aria-expanded={props.isLine !== true}
            onClick={() => onWords()()}
          >
            {words()}
          </button>
        )}
      </Show>
      <Show when={props.alert.class === "urgent" && props.alert.sinceMs}>
        {(sinceMs) => <time class="alert-count">{formatStopwatch((board.nowMs() - sinceMs()) / 1000)}</time>}
      </Show>
      <Show when={props.isLine !== true && leftOn()} keyed>
        {(toolId) => (
          <div class="alert-acts">
            <button type="button" onClick={() => act({ type: "tool-off", toolId }, "Tool off")}>
              It is off
            </button>
            <button
              type="button"
              onClick={() => act({ type: "tool-still-in-use", toolId }, "Tool still in use")}
            >
              Still in use
            </button>
          </div>
        )}
      </Show>
      <Show when={!acknowledged() && !isAlone()}>
        <div class="alert-acts">
          <button type="button" onClick={() => act({ type: "acknowledge-alert", key: props.alert.key })}>
            Seen
          </button>
          <Show when={props.isLine !== true && mayPutOff(props.alert)}>
            <button
              type="button"
              onClick={() => act({ type: "put-off-alert", key: props.alert.key, minutes: 10 })}
            >
              In 10 min
            </button>
          </Show>
        </div>
      </Show>
    </article>
  );
}
