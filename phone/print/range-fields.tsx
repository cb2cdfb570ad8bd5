import { createSignal } from "solid-js";
import { usePhone } from "#phone/app/phone.tsx";
import { NumberField } from "#phone/ui/number-field.tsx";

export interface Range {
  from: number;
  to: number;
}

/** What was typed into a field; no value where it can be no number of these. */
interface Typed {
  value: number | undefined;
}

/** A range of numbers as signals: all there are, until it is narrowed. */
export function createRange(all: () => Range) {
  const [from, setFrom] = createSignal<Typed>();
  const [to, setTo] = createSignal<Typed>();
  const range = (): Range => ({ from: from()?.value ?? all().from, to: to()?.value ?? all().to });
  return { range, all, from, setFrom, to, setTo };
}

/** From which number to which labels are printed. */
export function RangeFields(props: { of: "trays" | "boxes"; range: ReturnType<typeof createRange> }) {
  const { words } = usePhone();
  const { all, from, setFrom, to, setTo } = props.range;
  /** What is typed stays, whatever else there comes to be. */
  const shown = (typed: Typed | undefined, usual: number): number | undefined =>
    typed === undefined ? usual : typed.value;
  return (
    <div class="range not-print">
      <NumberField
        label={words().print.from[props.of]}
        value={shown(from(), all().from)}
        {...{ min: 1, max: Math.max(1, all().to), isWhole: true }}
        onChange={(value) => setFrom({ value })}
      />
      <NumberField
        label={words().print.to[props.of]}
        value={shown(to(), all().to)}
        {...{ min: 1, max: Math.max(1, all().to), isWhole: true }}
        onChange={(value) => setTo({ value })}
      />
    </div>
  );
}
