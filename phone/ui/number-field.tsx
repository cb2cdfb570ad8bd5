import { Show, createEffect, createSignal, createUniqueId } from "solid-js";
import { useWords } from "#shared/client/screen/language.ts";
import {
  celsiusToFahrenheit,
  fahrenheitToCelsius,
  inchesToMm,
  type KitchenUnits,
  mmToInches,
  parseAmount,
} from "#shared/units.ts";
import { useForm } from "./form.tsx";

/** Fields for numbers. Their ranges come from the schemas: `{...rangeOf(Place.entries.capacity)}`. */

/** A number with its unit and its range; `undefined` when empty or outside it. */
export function NumberField(props: {
  label: string;
  value: number | undefined;
  min: number;
  max: number;
  unit?: string | undefined;
  onChange: (value: number | undefined, isEmpty: boolean) => void;
  hint?: string | undefined;
  optional?: boolean;
  /** Decimals shown of a value that came from elsewhere: 4 unless told. */
  digits?: number;
  /** Whether people write it in fractions: then the keyboard has to offer a space and a stroke. */
  isFractional?: boolean;
}) {
  const id = createUniqueId();
  const words = useWords();
  const form = useForm();
  const digits = (): number => props.digits ?? 4;
  const [text, setText] = createSignal("");
  const [left, setLeft] = createSignal(false);
  // What was last typed (null: nothing yet), so that only a value from outside overwrites the text.
  let typed: number | undefined | null = null;
  createEffect(() => {
    if (props.value === typed || isSame(props.value, typed, digits())) return;
    typed = props.value;
    setText(props.value === undefined ? "" : String(Number(props.value.toFixed(digits()))));
  });
  /** What was typed, where it lies in the range. */
  const usable = (): number | undefined => {
    const value = parseAmount(text());
    return value !== undefined && value >= props.min && value <= props.max ? value : undefined;
  };
  const fault = (): string | undefined => {
    const { forms } = words();
    if (text().trim() === "") {
      const isMissing = props.optional !== true && (left() || form.isTried());
      return isMissing ? forms.missing(props.label) : form.faultOf(props.label);
    }
    if (usable() !== undefined) return form.faultOf(props.label);
    const asked = { label: props.label, min: least(props.min), max: most(props.max), unit: props.unit };
    return parseAmount(text()) === undefined
      ? forms.notANumber(asked, props.isFractional === true)
      : forms.range(asked);
  };
  return (
    <div class="field">
      <label for={id}>{props.label}</label>
      <div class="with-unit">
        <input
          id={id}
          inputmode={props.isFractional === true ? "text" : "decimal"}
          autocomplete="off"
          value={text()}
          aria-invalid={fault() !== undefined}
          aria-describedby={`${id}-hint`}
          onInput={(event) => {
            setText(event.currentTarget.value);
            typed = usable();
            props.onChange(typed, text().trim() === "");
          }}
          onBlur={() => setLeft(true)}
        />
        <Show when={props.unit}>
          <span>{props.unit}</span>
        </Show>
      </div>
      <small
        id={`${id}-hint`}
        classList={{ "field-error": fault() !== undefined }}
        role={fault() === undefined ? undefined : "alert"}
      >
        {fault() ?? props.hint}
      </small>
    </div>
  );
}

/** Whether a value is what was typed, but for what is not shown of it. */
const isSame = (value: number | undefined, typed: number | undefined | null, digits: number): boolean =>
  value !== undefined &&
  typed !== undefined &&
  typed !== null &&
  Math.abs(value - typed) < 0.5 / 10 ** digits;

/** A range's ends in hundredths, rounded inwards: what is told can be typed. */
const inHundredths = (value: number): number => Number((value * 100).toFixed(6));
const least = (value: number): number => Math.ceil(inHundredths(value)) / 100;
const most = (value: number): number => Math.floor(inHundredths(value)) / 100;

/** How a quantity is typed: in which unit, to how many digits, and from and to the unit that is kept. */
interface TypedUnit {
  unit: string;
  digits: number;
  out: (kept: number) => number;
  in: (typed: number) => number;
}

const asKept = (unit: string): TypedUnit => ({
  unit,
  digits: 4,
  out: (kept) => kept,
  in: (typed) => typed,
});
const TEMPS: Readonly<Record<KitchenUnits, TypedUnit>> = {
  metric: asKept("°C"),
  us: { unit: "°F", digits: 1, out: celsiusToFahrenheit, in: fahrenheitToCelsius },
};
const LENGTHS: Readonly<Record<KitchenUnits, TypedUnit>> = {
  metric: asKept("mm"),
  us: { unit: "in", digits: 3, out: mmToInches, in: inchesToMm },
};

interface QuantityProps {
  label: string;
  min: number;
  max: number;
  /** The kitchen's own unless told. */
  units?: KitchenUnits;
  hint?: string | undefined;
  onChange: (kept: number | undefined) => void;
}

/** A temperature kept in °C, typed in what the kitchen reads. */
export function TempField(props: QuantityProps & { valueC: number | undefined }) {
  return <QuantityField {...props} value={props.valueC} typed={TEMPS} />;
}

/** A length kept in mm, typed in mm or inches. */
export function LengthField(props: QuantityProps & { valueMm: number | undefined }) {
  return <QuantityField {...props} value={props.valueMm} typed={LENGTHS} isFractional />;
}

function QuantityField(
  props: QuantityProps & {
    value: number | undefined;
    typed: Readonly<Record<KitchenUnits, TypedUnit>>;
    /** Whether it is written in fractions in US kitchens. */
    isFractional?: boolean;
  },
) {
  const words = useWords();
  const units = (): KitchenUnits => props.units ?? words().format.units;
  const typed = (): TypedUnit => props.typed[units()];
  const end = (kept: number): number => Number(typed().out(kept).toFixed(typed().digits));
  return (
    <NumberField
      label={props.label}
      value={props.value === undefined ? undefined : typed().out(props.value)}
      min={end(props.min)}
      max={end(props.max)}
      unit={typed().unit}
      digits={typed().digits}
      isFractional={props.isFractional === true && units() === "us"}
      hint={props.hint}
      onChange={(value) => props.onChange(value === undefined ? undefined : typed().in(value))}
    />
  );
}
