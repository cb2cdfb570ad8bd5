import { createSignal } from "solid-js";
import { usePhone } from "#phone/app/phone.tsx";
import { NumberField } from "#phone/ui/number-field.tsx";

export interface Range {
  from: number;
  to: number;
}

/** A range of numbers as signals: all there are, until it is narrowed. */
export function createRange(all: () => Range) {
  const [from, setFrom] = createSignal<number>();
  const [to, setTo] = createSignal<number>();
  const range = (): Range => ({ from: from() ?? all().from, to: to() ?? all().to });
  return { range, all, setFrom, setTo };
}

/** From which number to which labels are printed. */
export function RangeFields(props: { of: "trays" | "boxes"; range: ReturnType<typeof createRange> }) {
  const { words } = usePhone();
  const { range, all, setFrom, setTo } = props.range;
  return (
    <div class="range not-print">
      <NumberField
        label={words().print.from[props.of]}
        value={range().from}
        {...{ min: 1, max: Math.max(1, all().to), isWhole: true }}
        onChange={setFrom}
      />
      <NumberField
        label={words().print.to[props.of]}
        value={range().to}
        {...{ min: 1, max: Math.max(1, all().to), isWhole: true }}
        onChange={setTo}
      />
    </div>
  );
}
