import type { BookRow } from "#shared/kitchen/calibration/book.ts";

/** From half as long to twice as long, on a log scale: the likely range as a bar, the likeliest as a mark. Said in words beside it. */
export function RatioBar(props: { row: Pick<BookRow, "ratio" | "lowRatio" | "highRatio"> }) {
  return (
    <div class="ratio" aria-hidden="true">
      <span class="ratio-start" />
      <span
        class="ratio-range"
        style={{
          left: `${atPct(props.row.lowRatio)}%`,
          width: `${atPct(props.row.highRatio) - atPct(props.row.lowRatio)}%`,
        }}
      />
      <span class="ratio-mark" style={{ left: `${atPct(props.row.ratio)}%` }} />
    </div>
  );
}

/** Where a ratio stands between ½ and 2, %. */
const atPct = (ratio: number): number => Math.min(100, Math.max(0, 50 * (1 + Math.log2(ratio))));
