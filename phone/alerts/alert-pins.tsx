import { Show, createMemo, createSignal } from "solid-js";
import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import { useFirst } from "#phone/app/phone.tsx";
import { AlertCard, AlertCards } from "./alert-card.tsx";
import { isSeen, trayRuns } from "./alerts-shown.ts";
import { SeenAlerts } from "./seen-alerts.tsx";

/** More than these would leave a small phone no room to work in. */
const MOST_LINES = 2;

/**
 * Urgent alerts, above the page, which scrolls under none of them. One alone is told whole. Several are a line each, which
 * opens by a tap on its words; beyond two a count opens the rest.
 */
export function AlertPins(props: { alerts: readonly ActiveAlert[]; isRoom: boolean }) {
  const { words } = useFirst();
  const [opened, setOpened] = createSignal<string>();
  const [isLong, setLong] = createSignal(false);
  const urgent = createMemo(() => props.alerts.filter((alert) => alert.class === "urgent"));
  const unseen = createMemo(() => urgent().filter((alert) => !isSeen(alert)));
  /** One that is urgent stays in sight once it is seen too, in one line with the others. Room lists them all by itself. */
  const seen = createMemo(() => (!props.isRoom && urgent().some(isSeen) ? props.alerts.filter(isSeen) : []));
  const shown = createMemo(() => (isLong() ? unseen() : unseen().slice(0, MOST_LINES)));
  const rest = createMemo(() => unseen().slice(MOST_LINES));
  const isOneOfMany = (): boolean => unseen().length > 1;
  const restWords = (): string => {
    const { showFewer, moreUrgent } = words().alerts;
    return isLong() ? showFewer : moreUrgent(rest().length, trayRuns(rest()), seen().length);
  };
  return (
    <Show when={unseen().length > 0 || seen().length > 0}>
      <section class="alerts pinned" aria-label={words().alerts.urgentLabel} aria-live="assertive">
        <AlertCards
          alerts={shown()}
          card={(alert) => (
            <AlertCard
              alert={alert}
              isLine={isOneOfMany() && opened() !== alert.key}
              {...(isOneOfMany() && {
                onWords: () => setOpened((was) => (was === alert.key ? undefined : alert.key)),
              })}
            />
          )}
        />
        <Show when={rest().length > 0}>
          <button type="button" class="more" aria-expanded={isLong()} onClick={() => setLong((was) => !was)}>
            {restWords()}
          </button>
        </Show>
        <Show when={seen().length > 0 && (rest().length === 0 || isLong())}>
          <SeenAlerts alerts={seen()} />
        </Show>
      </section>
    </Show>
  );
}
