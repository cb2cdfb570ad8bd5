import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import { lowered } from "#shared/words/wording.ts";
import { AlertCards } from "./alert-card.tsx";

/** "2 alerts seen: stop the heat, tray 7; …": in one line, which opens the list. */
export function SeenAlerts(props: { alerts: readonly ActiveAlert[] }) {
  const count = (): string => `${props.alerts.length} ${props.alerts.length === 1 ? "alert" : "alerts"} seen`;
  const words = (): string =>
    props.alerts
      .map(({ what, trayNumber }) => lowered(what) + (trayNumber === undefined ? "" : `, tray ${trayNumber}`))
      .join("; ");
  return (
    <details class="seen-alerts">
      <summary>
        <span>
          <strong>{count()}:</strong> {words()}
        </span>
      </summary>
      <AlertCards alerts={props.alerts} />
    </details>
  );
}
