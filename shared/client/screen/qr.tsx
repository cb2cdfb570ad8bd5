import { create } from "qrcode";
import { createMemo } from "solid-js";
import type { JSX } from "solid-js";

/** Light modules around the dark ones, as ISO/IEC 18004 asks. */
const QUIET = 4;

/** A text as a QR code in black on white, as large as its class makes it. `label` says what it leads to. */
export function Qr(props: { text: string; label: string; class?: string }): JSX.Element {
  const code = createMemo(() => create(props.text, { errorCorrectionLevel: "M" }).modules);
  const side = (): number => code().size + 2 * QUIET;
  return (
    <svg
      class={props.class}
      viewBox={`${-QUIET} ${-QUIET} ${side()} ${side()}`}
      role="img"
      aria-label={props.label}
    >
      <rect x={-QUIET} y={-QUIET} width={side()} height={side()} fill="#fff" />
      <path d={darkRuns(code().data, code().size)} fill="#000" shape-rendering="crispEdges" />
    </svg>
  );
}

/** The dark modules as path data, one box for each run of them in a row. */
function darkRuns(data: Uint8Array, size: number): string {
  const boxes: string[] = [];
  for (let row = 0; row < size; row += 1) {
    for (let from = 0; from < size; from += 1) {
      let to = from;
      while (to < size && data[row * size + to] === 1) to += 1;
      if (to > from) boxes.push(`M${from} ${row}h${to - from}v1H${from}z`);
      from = to;
    }
  }
  return boxes.join("");
}
