import { For, Show, createMemo, createSignal } from "solid-js";
import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import { AlertCard } from "./alert-card.tsx";
import { isSeen, trayRuns } from "./alerts-shown.ts";
import { SeenAlerts } from "./seen-alerts.tsx";

/** More than these would leave a small phone no room to work in. */
const MOST_LINES = 2;

/**
 * Urgent alerts, above the page, which scrolls under none of them. One alone is told whole. Several are a line each, which
 * opens by a tap on its words; beyond two a count opens the rest.
 */
export function AlertPins(props: { alerts: readonly ActiveAlert[]; isRoom: boolean }) {
  const [opened, setOpened] = createSignal<string>();
  const [isLong, setLong] = createSignal(false);
  const urgent = createMemo(() => props.alerts.filter((alert) => alert.class === "urgent"));
  const unseen = createMemo(() => urgent().filter((alert) => !isSeen(alert)));
  /** One that is urgent stays in sight once it is seen too, in one line with the others. Room lists them all by itself. */
  const seen = createMemo(() => (!props.isRoom && urgent().some(isSeen) ? props.alerts.filter(isSeen) : []));
  const shown = createMemo(() => (isLong() ? unseen() : unseen().slice(0, MOST_LINES)));
  const rest = createMemo(() => unseen().slice(MOST_LINES));
  const restWords = (): string => {
    if (isLong()) return "Show fewer";
    const which = trayRuns(rest());
    return `and ${rest().length} more urgent${which === "" ? "" : `: ${which}`}${seen().length === 0 ? "" : `; ${seen().length} seen`}`;
  };
  return (
    <Show when={unseen().length > 0 || seen().length > 0}>
      <section class="alerts pinned" aria-label="Urgent alerts" aria-live="assertive">
        <For each={shown().map(({ key }) => key)}>
          {(key) => (
            <Show when={unseen().find((alert) => alert.key === key)}>
              {(alert) => (
                <Show
                  when={unseen().length > 1 && opened() !== key}
                  fallback={
                    <AlertCard
                      alert={alert()}
                      {...(unseen().length > 1 ? { onWords: () => setOpened(undefined) } : {})}
                    />
                  }
                >
                  <AlertCard alert={alert()} isLine onWords={() => setOpened(key)} />
                </Show>
              )}
            </Show>
          )}
        </For>
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
