import { createMemo, For, type JSX, Show } from "solid-js";
import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import { mayPutOff, phoneActOf } from "#shared/kitchen/model/active-alert.ts";
import { wordAlert } from "#shared/words/alert-text.ts";
import { useFirst } from "#phone/app/phone.tsx";

/** By their keys, so that a card stays itself while its alert changes; `card` shows one, else it is a card or a line. */
export function AlertCards(props: {
  alerts: readonly ActiveAlert[];
  isLine?: boolean;
  card?: (alert: ActiveAlert) => JSX.Element;
}) {
  return (
    <For each={props.alerts.map(({ key }) => key)}>
      {(key) => (
        <Show when={props.alerts.find((alert) => alert.key === key)}>
          {(alert) => (
            <Show when={props.card} fallback={<AlertCard alert={alert()} isLine={props.isLine === true} />}>
              {(card) => card()(alert())}
            </Show>
          )}
        </Show>
      )}
    </For>
  );
}

/** `isLine`: tray, what to do, clock and Seen; a tap on its words opens the rest where `onWords` is given. */
export function AlertCard(props: { alert: ActiveAlert; isLine?: boolean; onWords?: () => void }) {
  const { board, act, words } = useFirst();
  const acknowledged = (): boolean => props.alert.acknowledged !== undefined;
  const text = createMemo(() => wordAlert(words(), board.kitchen(), props.alert));
  /** A line has room for no more, and what is urgent is to be done first and understood then. */
  const isActFirst = (): boolean => props.isLine === true || props.alert.class === "urgent";
  const headline = (): string => {
    const { subject, act, what } = text();
    const matter = isActFirst() ? act : what;
    return subject === undefined ? matter : words().alerts.about(subject, matter);
  };
  /** What to do, and whose it is where it is not this phone's own. */
  const rest = (): string => {
    const { act, what, todo, where } = text();
    const isMine = where.length < 2 || props.alert.holderId === board.me.personId;
    const other = isActFirst() ? what : act;
    return [act === what ? todo : `${other}. ${todo}`, ...(isMine ? [] : where)].join(" · ");
  };
  const leftOn = () => (phoneActOf(props.alert) === "tool" ? props.alert.toolId : undefined);
  const asking = () => (phoneActOf(props.alert) === "device" ? props.alert.deviceId : undefined);
  const where = (number: number): string =>
    board.kitchen().trays[props.alert.trayId ?? ""]?.status.stage === "heat-set"
      ? `#/t/${number}/heat`
      : `#/t/${number}`;
  const seenBy = (): string => {
    const { you, someone, seenBy, clearsByItself } = words().alerts;
    const by = props.alert.acknowledged?.by;
    const who = by === board.me.personId ? you : (board.kitchen().people[by ?? ""]?.name ?? someone);
    return (props.isLine === true ? seenBy : clearsByItself)(who);
  };
  const message = () => (
    <>
      <strong>{headline()}</strong>
      <Show when={props.isLine !== true && (!acknowledged() || props.alert.class === "urgent")}>
        <span>{rest()}</span>
      </Show>
      <Show when={acknowledged()}>
        <span>{seenBy()}</span>
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
          <a class="alert-number" href={where(number())} aria-label={words().alerts.tray(number())}>
            {number()}
          </a>
        )}
      </Show>
      <Show when={props.onWords} fallback={<div class="alert-words">{message()}</div>}>
        {(onWords) => (
          <button
            type="button"
            class="alert-words"
            aria-expanded={props.isLine !== true}
            onClick={() => onWords()()}
          >
            {message()}
          </button>
        )}
      </Show>
      <Show when={props.alert.class === "urgent" && props.alert.sinceMs}>
        {(sinceMs) => (
          <time class="alert-count">{words().format.stopwatch((board.nowMs() - sinceMs()) / 1000)}</time>
        )}
      </Show>
      <Show when={props.isLine !== true && leftOn()} keyed>
        {(toolId) => (
          <div class="alert-acts">
            <button type="button" onClick={() => act({ type: "tool-off", toolId }, words().alerts.toolOff)}>
              {words().alerts.isOff}
            </button>
            <button
              type="button"
              onClick={() => act({ type: "tool-still-in-use", toolId }, words().alerts.toolStillInUse)}
            >
              {words().alerts.stillInUse}
            </button>
          </div>
        )}
      </Show>
      <Show when={props.isLine !== true && asking()} keyed>
        {(joiningId) => (
          <div class="alert-acts">
            <button type="button" onClick={() => act({ type: "let-in", joiningId }, words().alerts.isLetIn)}>
              {words().alerts.letIn}
            </button>
            <button
              type="button"
              onClick={() => act({ type: "forget-device", joiningId }, words().alerts.isTurnedAway)}
            >
              {words().alerts.turnAway}
            </button>
          </div>
        )}
      </Show>
      <Show when={!acknowledged() && props.alert.isOffline !== true}>
        <div class="alert-acts">
          <button type="button" onClick={() => act({ type: "acknowledge-alert", key: props.alert.key })}>
            {words().alerts.seen}
          </button>
          <Show when={props.isLine !== true && mayPutOff(props.alert)}>
            <button
              type="button"
              onClick={() => act({ type: "put-off-alert", key: props.alert.key, minutes: 10 })}
            >
              {words().alerts.inTenMinutes}
            </button>
          </Show>
        </div>
      </Show>
    </article>
  );
}
