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

/** How a quantity is typed: to how many digits, and from and to the unit that is kept. */
export interface Conversion {
  digits: number;
  out: (kept: number) => number;
  in: (typed: number) => number;
}

/** To a unit that holds so many of the one that is kept. */
export const inUnitsOf = (kept: number, digits = 4): Conversion => ({
  digits,
  out: (value) => value / kept,
  in: (value) => value * kept,
});
const AS_KEPT = inUnitsOf(1);
const FAHRENHEIT: Conversion = { digits: 1, out: celsiusToFahrenheit, in: fahrenheitToCelsius };

interface QuantityProps {
  label: string;
  min: number;
  max: number;
  /** The kitchen's own unless told. */
  units?: KitchenUnits | undefined;
  hint?: string | undefined;
  optional?: boolean | undefined;
  onChange: (kept: number | undefined, isEmpty: boolean) => void;
}

/** A number in the unit it is kept in, or converted to another; °C as the kitchen reads temperatures. */
export function QuantityField(
  props: QuantityProps & {
    value: number | undefined;
    unit?: string | undefined;
    conversion?: Conversion | undefined;
    isWhole?: boolean | undefined;
    isFractional?: boolean;
  },
) {
  const words = useWords();
  const isFahrenheit = (): boolean => props.unit === "°C" && (props.units ?? words().format.units) === "us";
  const conversion = (): Conversion => props.conversion ?? (isFahrenheit() ? FAHRENHEIT : AS_KEPT);
  const end = (kept: number): number => Number(conversion().out(kept).toFixed(conversion().digits));
  return (
    <NumberField
      label={props.label}
      value={props.value === undefined ? undefined : conversion().out(props.value)}
      min={end(props.min)}
      max={end(props.max)}
      unit={isFahrenheit() ? "°F" : props.unit}
      digits={conversion().digits}
      isWhole={props.isWhole}
      isFractional={props.isFractional === true}
      optional={props.optional}
      hint={props.hint}
      onChange={(value, isEmpty) =>
        props.onChange(value === undefined ? undefined : conversion().in(value), isEmpty)
      }
    />
  );
}

/** A temperature kept in °C, typed in what the kitchen reads. */
export function TempField(props: QuantityProps & { valueC: number | undefined }) {
  return <QuantityField {...props} value={props.valueC} unit="°C" />;
}

const INCHES = inUnitsOf(INCH_MM, 3);

/** A length kept in mm, typed in mm or inches. */
export function LengthField(props: QuantityProps & { valueMm: number | undefined }) {
  const words = useWords();
  const isUs = (): boolean => (props.units ?? words().format.units) === "us";
  return (
    <QuantityField
      {...props}
      value={props.valueMm}
      unit={isUs() ? words().format.inch : "mm"}
      conversion={isUs() ? INCHES : undefined}
      isFractional={isUs()}
    />
  );
}
