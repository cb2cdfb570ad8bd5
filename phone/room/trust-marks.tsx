import { Show } from "solid-js";
import type { JSX } from "solid-js";
import type { Found } from "#shared/kitchen/calibration/trust.ts";
import { usePhone } from "#phone/app/phone.tsx";

/** One film of the plot: its band as a bar with the likeliest marked, and what hands found over it. */
export function FilmMark(props: {
  found: Found;
  xPx: number;
  widthPx: number;
  yPx: (minutes: number) => number;
  isOnAxis: (minutes: number) => boolean;
}) {
  const barPx = (): number => Math.min(16, props.widthPx * 0.72);
  const halfPx = (): number => Math.min(7, props.widthPx * 0.4);
  /** An end far off the axis says no more than an open one. */
  const endPx = (end: number | undefined, other: number | undefined): number | undefined =>
    end === undefined || (other !== undefined && !props.isOnAxis(end)) ? undefined : props.yPx(end);
  const topPx = (): number => props.yPx(props.found.latestMin);
  return (
    <g data-outside={props.found.surprise !== undefined}>
      <rect
        class="plot-bar"
        x={props.xPx - barPx() / 2}
        y={topPx()}
        width={barPx()}
        height={props.yPx(props.found.earliestMin) - topPx()}
        rx={barPx() / 2}
      />
      <line
        class="plot-likely"
        x1={props.xPx - barPx() / 2}
        x2={props.xPx + barPx() / 2}
        y1={props.yPx(props.found.likelyMin)}
        y2={props.yPx(props.found.likelyMin)}
      />
      <FoundMark
        xPx={props.xPx}
        halfPx={halfPx()}
        byPx={endPx(props.found.byMin, props.found.notYetMin)}
        notYetPx={endPx(props.found.notYetMin, props.found.byMin)}
      />
      <Show when={props.found.surprise} keyed>
        {(surprise) => (
          <Diamond
            xPx={props.xPx}
            yPx={props.yPx((surprise.is === "sooner" ? props.found.byMin : props.found.notYetMin) ?? 0)}
            halfPx={halfPx()}
          />
        )}
      </Show>
    </g>
  );
}

/** "By then" points down to sooner, "not yet" up to later; both make a bracket. */
function FoundMark(props: {
  xPx: number;
  halfPx: number;
  byPx?: number | undefined;
  notYetPx?: number | undefined;
}) {
  const arrow = (yPx: number, way: 1 | -1): string => {
    const { xPx, halfPx } = props;
    return `M${xPx - halfPx} ${yPx}h${2 * halfPx}M${xPx} ${yPx}v${way * 11}m${-halfPx * 0.7} ${-way * 4.5}l${halfPx * 0.7} ${way * 4.5}l${halfPx * 0.7} ${-way * 4.5}`;
  };
  const bracket = (byPx: number, notYetPx: number): string =>
    `M${props.xPx - props.halfPx} ${byPx}h${2 * props.halfPx}M${props.xPx} ${byPx}V${notYetPx}M${props.xPx - props.halfPx} ${notYetPx}h${2 * props.halfPx}`;
  const path = (): string => {
    const { byPx, notYetPx } = props;
    if (byPx !== undefined && notYetPx !== undefined) return bracket(byPx, notYetPx);
    if (byPx !== undefined) return arrow(byPx, 1);
    return notYetPx === undefined ? "" : arrow(notYetPx, -1);
  };
  return <path class="plot-found" d={path()} />;
}

const Diamond = (props: { xPx: number; yPx: number; halfPx: number }) => (
  <path
    class="plot-diamond"
    d={`M${props.xPx} ${props.yPx - props.halfPx}l${props.halfPx} ${props.halfPx}l${-props.halfPx} ${props.halfPx}l${-props.halfPx} ${-props.halfPx}z`}
  />
);

/** What each mark means, in words. */
export function PlotLegend(props: { quantity: Found["quantity"] }) {
  const { words } = usePhone();
  const legend = () => words().trust.plot.legend;
  return (
    <ul class="plot-legend">
      <Sample words={legend().band} quantity={props.quantity}>
        <rect class="plot-bar" x="3" y="3" width="12" height="26" rx="6" />
        <line class="plot-likely" x1="3" x2="15" y1="16" y2="16" />
      </Sample>
      <Sample words={legend().between} quantity={props.quantity}>
        <FoundMark xPx={9} halfPx={6} byPx={6} notYetPx={26} />
      </Sample>
      <Sample words={legend().done} quantity={props.quantity}>
        <FoundMark xPx={9} halfPx={6} byPx={10} />
      </Sample>
      <Sample words={legend().notYet} quantity={props.quantity}>
        <FoundMark xPx={9} halfPx={6} notYetPx={22} />
      </Sample>
      <Sample words={legend().outside} quantity={props.quantity}>
        <g data-outside="true">
          <Diamond xPx={9} yPx={16} halfPx={7} />
        </g>
      </Sample>
    </ul>
  );
}

const Sample = (props: { words: string; quantity: Found["quantity"]; children: JSX.Element }) => (
  <li>
    <svg width="18" height="32" aria-hidden="true" data-quantity={props.quantity}>
      {props.children}
    </svg>
    <span>{props.words}</span>
  </li>
);
