import { Show, createEffect, createSignal, createUniqueId } from "solid-js";
import { useWords } from "#shared/client/screen/language.ts";
import {
  celsiusToFahrenheit,
  fahrenheitToCelsius,
  INCH_MM,
  type KitchenUnits,
  parseAmount,
} from "#shared/units.ts";
import { createFault, useForm } from "./form.tsx";

/** Fields for numbers. Their ranges come from the schemas: `{...rangeOf(Place.entries.capacity)}`. */

/** A number with its unit and its range; `undefined` when empty or outside it. */
export function NumberField(props: {
  label: string;
  value: number | undefined;
  min: number;
  max: number;
  unit?: string | undefined;
  isWhole?: boolean | undefined;
  onChange: (value: number | undefined, isEmpty: boolean) => void;
  hint?: string | undefined;
  optional?: boolean | undefined;
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
  const isInRange = (value: number): boolean => value >= props.min && value <= props.max;
  /** What was typed, where it can be. */
  const usable = (): number | undefined => {
    const value = parseAmount(text());
    const canBe =
      value !== undefined && isInRange(value) && (props.isWhole !== true || Number.isInteger(value));
    return canBe ? value : undefined;
  };
  const fault = createFault(
    () => props.label,
    () => {
      const { forms } = words();
      if (text().trim() === "")
        return props.optional !== true && (left() || form.isTried()) ? forms.missing(props.label) : undefined;
      if (usable() !== undefined) return undefined;
      const asked = { label: props.label, min: least(props.min), max: most(props.max), unit: props.unit };
      const value = parseAmount(text());
      if (value === undefined) return forms.notANumber(asked, props.isFractional === true);
      return isInRange(value) ? forms.notWhole(props.label) : forms.range(asked);
    },
  );
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
export interface TypedUnit {
  unit: string;
  digits: number;
  out: (kept: number) => number;
  in: (typed: number) => number;
}

/** A unit that holds so many of the one that is kept. */
export const unitOf = (unit: string, kept: number, digits = 4): TypedUnit => ({
  unit,
  digits,
  out: (value) => value / kept,
  in: (value) => value * kept,
});
const CELSIUS = unitOf("°C", 1);
const FAHRENHEIT = { unit: "°F", digits: 1, out: celsiusToFahrenheit, in: fahrenheitToCelsius };
const MILLIMETRES = unitOf("mm", 1);

interface QuantityProps {
  label: string;
  min: number;
  max: number;
  /** The kitchen's own unless told. */
  units?: KitchenUnits | undefined;
  hint?: string | undefined;
  onChange: (kept: number | undefined, isEmpty: boolean) => void;
}

/** A temperature kept in °C, typed in what the kitchen reads. */
export function TempField(props: QuantityProps & { valueC: number | undefined }) {
  const words = useWords();
  const typed = (): TypedUnit => ((props.units ?? words().format.units) === "us" ? FAHRENHEIT : CELSIUS);
  return <QuantityField {...props} value={props.valueC} typed={typed()} />;
}

/** A length kept in mm, typed in mm or inches. */
export function LengthField(props: QuantityProps & { valueMm: number | undefined }) {
  const words = useWords();
  const isUs = (): boolean => (props.units ?? words().format.units) === "us";
  const typed = (): TypedUnit => (isUs() ? unitOf(words().format.inch, INCH_MM, 3) : MILLIMETRES);
  return <QuantityField {...props} value={props.valueMm} typed={typed()} isFractional={isUs()} />;
}

/** What is kept in one unit and typed in another. */
export function QuantityField(
  props: QuantityProps & {
    value: number | undefined;
    typed: TypedUnit;
    isWhole?: boolean | undefined;
    isFractional?: boolean;
    optional?: boolean | undefined;
  },
) {
  const end = (kept: number): number => Number(props.typed.out(kept).toFixed(props.typed.digits));
  return (
    <NumberField
      label={props.label}
      value={props.value === undefined ? undefined : props.typed.out(props.value)}
      min={end(props.min)}
      max={end(props.max)}
      unit={props.typed.unit}
      digits={props.typed.digits}
      isWhole={props.isWhole}
      isFractional={props.isFractional === true}
      optional={props.optional}
      hint={props.hint}
      onChange={(value, isEmpty) =>
        props.onChange(value === undefined ? undefined : props.typed.in(value), isEmpty)
      }
    />
  );
}
