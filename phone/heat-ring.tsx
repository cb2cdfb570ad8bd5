import type { HeatLimitsFact } from "#shared/kitchen/event.ts";
import { formatStopwatch } from "#shared/units.ts";

const RADIUS = 121;
const TURN = 2 * Math.PI * RADIUS;

/**
 * A count-up in a ring that is full at stop-by: elapsed white, the time to check by touch pale, the rest dark. Past
 * stop-by the ring is full and the words say by how much.
 */
export function HeatRing(props: { elapsedS: number; limits: HeatLimitsFact }) {
  const share = (seconds: number): number => Math.min(1, Math.max(0, seconds / props.limits.stopByS));
  const arc = (fromS: number, toS: number) => ({
    "stroke-dasharray": `${(share(toS) - share(fromS)) * TURN} ${TURN}`,
    transform: `rotate(${share(fromS) * 360 - 90} 134 134)`,
  });
  const past = (): boolean => props.elapsedS >= props.limits.stopByS;
  const words = (): string => {
    const { checkFromS, checkToS, stopByS, settles } = props.limits;
    if (past())
      return `${formatStopwatch(props.elapsedS - stopByS)} past stop-by ${formatStopwatch(stopByS)}`;
    if (!settles) return `stop by ${formatStopwatch(stopByS)}: it may not set`;
    return `check touch ${formatStopwatch(checkFromS)}–${formatStopwatch(Math.min(checkToS, stopByS))}`;
  };
  return (
    <div class="ring" role="timer" aria-label={`${formatStopwatch(props.elapsedS)}, ${words()}`}>
      <svg viewBox="0 0 268 268" aria-hidden="true">
        <circle class="ring-track" cx="134" cy="134" r={RADIUS} />
        <circle
          class="ring-check"
          cx="134"
          cy="134"
          r={RADIUS}
          {...arc(props.limits.checkFromS, props.limits.checkToS)}
        />
        <circle class="ring-elapsed" cx="134" cy="134" r={RADIUS} {...arc(0, props.elapsedS)} />
      </svg>
      <p aria-hidden="true">
        <span class="ring-time">{formatStopwatch(props.elapsedS)}</span>
        <span class="ring-words">{words()}</span>
      </p>
    </div>
  );
}
