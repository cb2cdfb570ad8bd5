import { For, Show, createEffect, createMemo, untrack } from "solid-js";
import { createSounder } from "#shared/client/sounder.ts";
import { mayPutOff, type StandingAlert } from "#shared/kitchen/alert.ts";
import { alertsAlone } from "#shared/kitchen/alerts/alone.ts";
import { forPerson, isShown } from "#shared/kitchen/alerts.ts";
import { sayNumbers } from "#shared/kitchen/tray-numbers.ts";
import { formatStopwatch } from "#shared/units.ts";
import { isOfHeat } from "./heat-words.ts";
import { usePhone } from "./phone.tsx";

const RANK = { urgent: 0, prompt: 1, note: 2 } as const;
/** Acknowledged prompts stay as a line; more than this many would push the work off the screen. */
const SHOWN = 3;
/** Runs of tray numbers that keep to one line. */
const MOST_RUNS = 3;
const isSeen = ({ acknowledged }: StandingAlert): boolean => acknowledged !== undefined;
/** Over a heat timer its own clock comes first: others are lines, and those beyond these are named in one more. */
const SHOWN_OVER_HEAT = 2;

/**
 * What is abnormal and for this person: on top of every screen, and in the ear. Over a heat timer only what is urgent
 * elsewhere, and other trays' heat: the timer itself says what is wrong with its own tray. Room lists them all by itself.
 */
export function AlertBar(props: { heatOf: number | undefined; isRoom: boolean }) {
  const { board, alarm } = usePhone();
  const isOverHeat = (): boolean => props.heatOf !== undefined;
  const most = (): number => (isOverHeat() ? SHOWN_OVER_HEAT : SHOWN);
  // The server carries the alarms. When nothing is heard from it, this phone warns of its holder's heat by itself.
  const alerts = createMemo(() =>
    board.connection().is === "live"
      ? Object.values(board.kitchen().alerts)
      : alertsAlone(board.kitchen(), board.me.personId, board.nowMs()),
  );
  const mine = createMemo(() =>
    alerts()
      .filter((alert) => forPerson(alert, board.me.personId, board.role()))
      .toSorted(
        (a, b) =>
          RANK[a.class] - RANK[b.class] ||
          (isOverHeat() ? Number(isSeen(a)) - Number(isSeen(b)) : 0) ||
          b.raisedAtMs - a.raisedAtMs,
      ),
  );
  const shown = createMemo(() =>
    mine().filter(
      (alert) =>
        isShown(alert, board.nowMs()) &&
        (props.heatOf === undefined ||
          ((alert.class === "urgent" || isOfHeat(alert)) && alert.trayNumber !== props.heatOf)),
    ),
  );

  const moreWords = createMemo(() => {
    const left = shown().slice(most());
    const numbers = left.flatMap(({ trayNumber }) => trayNumber ?? []);
    if (!isOverHeat() || numbers.length === 0) return `and ${left.length} more: see Room`;
    return `and ${left.length} more: ${sayNumbers(numbers, MOST_RUNS)}, see Room`;
  });

  const sounder = createSounder((kind) => alarm.play(kind));
  createEffect(() => {
    const [told, nowMs, speed] = [mine(), board.nowMs(), board.speed()];
    untrack(() => sounder(told, nowMs, speed));
  });

  return (
    <Show when={shown().length > 0 && !props.isRoom}>
      <section class="alerts" data-over-heat={isOverHeat()} aria-label="Alerts" aria-live="assertive">
        <For
          each={shown()
            .slice(0, most())
            .map((alert) => alert.key)}
        >
          {(key) => (
            <Show when={mine().find((alert) => alert.key === key)}>
              {(alert) => (
                <AlertCard
                  alert={alert()}
                  isAlone={board.kitchen().alerts[key] === undefined}
                  isLine={isOverHeat()}
                />
              )}
            </Show>
          )}
        </For>
        <Show when={shown().length > most()}>
          <p class="more">{moreWords()}</p>
        </Show>
      </section>
    </Show>
  );
}

/**
 * `isAlone`: this screen's own warning, which no one else sees and which clears with its cause. `isLine`: tray, matter, clock
 * and Seen, no more; the rest is on the card in Room.
 */
export function AlertCard(props: { alert: StandingAlert; isAlone?: boolean; isLine?: boolean }) {
  const { board, act } = usePhone();
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
  return (
    <article class="alert" data-class={props.alert.class} data-seen={acknowledged()}>
      <Show when={props.alert.trayNumber}>
        {(number) => (
          <a class="alert-number" href={where(number())} aria-label={`Tray ${number()}`}>
            {number()}
          </a>
        )}
      </Show>
      <div class="alert-words">
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
      </div>
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
      <Show when={!acknowledged() && props.isAlone !== true}>
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
