import { Show, createMemo } from "solid-js";
import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import { useFirst } from "#phone/app/phone.tsx";
import { AlertCards } from "./alert-card.tsx";
import { isSeen, trayRuns } from "./alerts-shown.ts";
import { SeenAlerts } from "./seen-alerts.tsx";

/** More prompts than this would push the work off the screen. */
const SHOWN = 3;
/** Over a heat timer its own clock comes first: others are lines, and those beyond these are named in one more. */
const SHOWN_OVER_HEAT = 2;

/** Over a heat's clock: other trays' heat and what else is urgent, a line each, above the page. Room lists them all by itself. */
export function AlertsOverHeat(props: { alerts: readonly ActiveAlert[] }) {
  const { words } = useFirst();
  const moreWords = createMemo(() => {
    const left = props.alerts.slice(SHOWN_OVER_HEAT);
    return words().alerts.moreOf(left.length, trayRuns(left));
  });
  return (
    <Show when={props.alerts.length > 0}>
      <section class="alerts" data-over-heat="true" aria-label={words().alerts.label} aria-live="assertive">
        <AlertCards alerts={props.alerts.slice(0, SHOWN_OVER_HEAT)} isLine />
        <Show when={props.alerts.length > SHOWN_OVER_HEAT}>
          <p class="more">{moreWords()}</p>
        </Show>
      </section>
    </Show>
  );
}

/** On the page: what is not urgent, and in one line what was seen already, unless that is pinned above it. */
export function AlertBar(props: { alerts: readonly ActiveAlert[] }) {
  const { words } = useFirst();
  const prompts = createMemo(() =>
    props.alerts.filter((alert) => !isSeen(alert) && alert.class !== "urgent"),
  );
  const seen = createMemo(() => {
    const seen = props.alerts.filter(isSeen);
    return seen.some((alert) => alert.class === "urgent") ? [] : seen;
  });
  return (
    <Show when={prompts().length + seen().length > 0}>
      <section class="alerts" aria-label={words().alerts.label} aria-live="polite">
        <AlertCards alerts={prompts().slice(0, SHOWN)} />
        <Show when={prompts().length > SHOWN}>
          <p class="more">{words().alerts.more(prompts().length - SHOWN)}</p>
        </Show>
        <Show when={seen().length > 0}>
          <SeenAlerts alerts={seen()} />
        </Show>
      </section>
    </Show>
  );
}
