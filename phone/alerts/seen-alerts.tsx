import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import { wordAlert } from "#shared/words/alert-text.ts";
import { useFirst } from "#phone/app/phone.tsx";
import { AlertCards } from "./alert-card.tsx";

/** "2 alerts seen: Tray 7: Stop the heat; …": in one line, which opens the list. */
export function SeenAlerts(props: { alerts: readonly ActiveAlert[] }) {
  const { board, words } = useFirst();
  const matters = (): string =>
    props.alerts
      .map((alert) => {
        const { about, tray } = words().alerts;
        const { subject, act } = wordAlert(words(), board.kitchen(), alert);
        const whose = alert.trayNumber === undefined ? subject : tray(alert.trayNumber);
        return whose === undefined ? act : about(whose, act);
      })
      .join("; ");
  return (
    <details class="seen-alerts">
      <summary data-show={words().alerts.show} data-hide={words().alerts.hide}>
        <span>
          <strong>{words().alerts.seenCount(props.alerts.length)}:</strong> {matters()}
        </span>
      </summary>
      <AlertCards alerts={props.alerts} />
    </details>
  );
}
