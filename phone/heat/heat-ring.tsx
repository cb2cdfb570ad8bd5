import type { HeatLimitsFact } from "#shared/kitchen/model/event.ts";
import type { ToolKind } from "#shared/heat/tool.ts";
import { stopwatch } from "#shared/words/spans.ts";
import { usePhone } from "#phone/app/phone.tsx";

const RADIUS = 121;
const TURN = 2 * Math.PI * RADIUS;

/**
 * A count-up in a ring that is full at stop-by: elapsed white, the time to check by touch pale, the rest dark; the words name
 * both. Past stop-by the ring is full and the words say by how much.
 */
export function HeatRing(props: { elapsedS: number; limits: HeatLimitsFact; toolKind: ToolKind }) {
  const { words } = usePhone();
  const heat = () => words().heat;
  const share = (seconds: number): number =>
    props.limits.stopByS > 0 ? Math.min(1, Math.max(0, seconds / props.limits.stopByS)) : 1;
  const arc = (fromS: number, toS: number) => ({
    "stroke-dasharray": `${(share(toS) - share(fromS)) * TURN} ${TURN}`,
    transform: `rotate(${share(fromS) * 360 - 90} 134 134)`,
  });
  const past = (): boolean => props.elapsedS >= props.limits.stopByS;
  const text = (): string => {
    const { stopByS, settles } = props.limits;
    if (past()) return heat().pastStopBy(props.elapsedS - stopByS, stopByS);
    return settles ? heat().touch(props.toolKind, props.limits) : heat().mayNotSet;
  };
  const stopBy = (): string => (past() ? "" : heat().stopBy(props.limits.stopByS));
  const spoken = (): string => [stopwatch(props.elapsedS), text(), stopBy()].filter(Boolean).join(", ");
  return (
    <div class="ring" role="timer" aria-label={spoken()}>
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
        <span class="ring-time">{stopwatch(props.elapsedS)}</span>
        <span class="ring-words">{text()}</span>
        <strong class="ring-words">{stopBy()}</strong>
      </p>
    </div>
  );
}
