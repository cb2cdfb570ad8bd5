import { For, Show, createEffect, createSignal, createUniqueId } from "solid-js";
import {
  celsiusToFahrenheit,
  fahrenheitToCelsius,
  inchesToMm,
  mmToInches,
  parseAmount,
} from "#shared/units.ts";
import type { KitchenUnits } from "#shared/units.ts";
import { useForm } from "./form.tsx";

/** Form fields: a label, a big target, and a sentence when what was typed cannot be. */

export function TextField(props: {
  label: string;
  value: string;
  onInput: (value: string) => void;
  hint?: string;
  maxLength?: number;
  list?: readonly string[];
  type?: "text" | "datetime-local" | "time" | "color";
  required?: boolean;
  capitalise?: "characters" | "words" | "none";
}) {
  const id = createUniqueId();
  const form = useForm();
  const fault = (): string | undefined => form.faultOf(props.label);
  const note = (): string | undefined => fault() ?? props.hint;
  return (
    <div class="field">
      <label for={id}>{props.label}</label>
      <input
        id={id}
        type={props.type ?? "text"}
        value={props.value}
        maxLength={props.maxLength}
        required={props.required}
        autocomplete="off"
        autocapitalize={props.capitalise ?? "sentences"}
        list={props.list === undefined ? undefined : `${id}-list`}
        aria-invalid={fault() !== undefined}
        aria-describedby={note() === undefined ? undefined : `${id}-hint`}
        onInput={(event) => props.onInput(event.currentTarget.value)}
      />
      <Show when={props.list}>
        <datalist id={`${id}-list`}>
          <For each={props.list}>{(one) => <option value={one} />}</For>
        </datalist>
      </Show>
      <Show when={note()}>
        <small id={`${id}-hint`} classList={{ "field-error": fault() !== undefined }}>
          {note()}
        </small>
      </Show>
    </div>
  );
}

/** A number with its unit and its range; `undefined` when empty or outside it. */
export function NumberField(props: {
  label: string;
  value: number | undefined;
  min: number;
  max: number;
  unit?: string;
  onChange: (value: number | undefined, isEmpty: boolean) => void;
  hint?: string;
  optional?: boolean;
  /** Decimals shown of a value that came from elsewhere: 4 unless told. */
  digits?: number;
  /** Whether people write it in fractions: then the keyboard has to offer a space and a stroke. */
  isFractional?: boolean;
}) {
  const id = createUniqueId();
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
  const parsed = (): number | undefined => parseAmount(text());
  const fault = (): string | undefined => {
    if (text().trim() === "") {
      const isMissing = props.optional !== true && (left() || form.isTried());
      return isMissing ? `${props.label} is missing.` : form.faultOf(props.label);
    }
    const value = parsed();
    const unit = props.unit === undefined ? "" : ` ${props.unit}`;
    const range = `${props.label} must be ${least(props.min)} to ${most(props.max)}${unit}`;
    if (value === undefined)
      return `${range}, written like ${props.isFractional === true ? "3.5 or 3\u00a01/2" : "1500 or 3.5"}.`;
    return value >= props.min && value <= props.max ? form.faultOf(props.label) : `${range}.`;
  };
  const isUsable = (): boolean => {
    const value = parsed();
    return value !== undefined && value >= props.min && value <= props.max;
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
            typed = isUsable() ? parsed() : undefined;
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

/** A temperature kept in °C, typed in what the kitchen reads. */
export function TempField(props: {
  label: string;
  valueC: number | undefined;
  min: number;
  max: number;
  units: KitchenUnits;
  onChange: (valueC: number | undefined) => void;
  hint?: string;
}) {
  const us = (): boolean => props.units === "us";
  const out = (c: number): number => (us() ? celsiusToFahrenheit(c) : c);
  return (
    <NumberField
      label={props.label}
      value={props.valueC === undefined ? undefined : out(props.valueC)}
      min={Number(out(props.min).toFixed(1))}
      max={Number(out(props.max).toFixed(1))}
      unit={us() ? "°F" : "°C"}
      digits={us() ? 1 : 4}
      {...(props.hint === undefined ? {} : { hint: props.hint })}
      onChange={(typed) =>
        props.onChange(typed === undefined ? undefined : us() ? fahrenheitToCelsius(typed) : typed)
      }
    />
  );
}

/** A length kept in mm, typed in mm or inches. */
export function LengthField(props: {
  label: string;
  valueMm: number | undefined;
  min: number;
  max: number;
  units: KitchenUnits;
  onChange: (valueMm: number | undefined) => void;
  hint?: string;
}) {
  const us = (): boolean => props.units === "us";
  const out = (mm: number): number => (us() ? mmToInches(mm) : mm);
  /** The range as it is told, so that what is told can be typed. */
  const told = (mm: number): number => (us() ? Number(mmToInches(mm).toFixed(3)) : mm);
  return (
    <NumberField
      label={props.label}
      value={props.valueMm === undefined ? undefined : out(props.valueMm)}
      min={told(props.min)}
      max={told(props.max)}
      unit={us() ? "in" : "mm"}
      digits={us() ? 3 : 4}
      isFractional={us()}
      {...(props.hint === undefined ? {} : { hint: props.hint })}
      onChange={(typed) => props.onChange(typed === undefined ? undefined : us() ? inchesToMm(typed) : typed)}
    />
  );
}

/** One of a few, all in sight. */
export function Choice<Value extends string>(props: {
  label: string;
  value: Value;
  options: readonly { value: Value; name: string; hint?: string }[];
  onChange: (value: Value) => void;
}) {
  const name = createUniqueId();
  return (
    <fieldset
      class="field choice"
      classList={{ hinted: props.options.some((option) => option.hint !== undefined) }}
    >
      <legend>{props.label}</legend>
      <For each={props.options}>
        {(option) => (
          <label>
            <input
              type="radio"
              name={name}
              checked={option.value === props.value}
              onChange={() => props.onChange(option.value)}
            />
            <span>
              {option.name}
              <Show when={option.hint}>
                <small>{option.hint}</small>
              </Show>
            </span>
          </label>
        )}
      </For>
    </fieldset>
  );
}

/** One of many. */
export function Select(props: {
  label: string;
  value: string;
  options: readonly { value: string; name: string }[];
  onChange: (value: string) => void;
  hint?: string;
}) {
  const id = createUniqueId();
  const form = useForm();
  const fault = (): string | undefined => form.faultOf(props.label);
  return (
    <div class="field">
      <label for={id}>{props.label}</label>
      <select
        id={id}
        aria-invalid={fault() !== undefined}
        onChange={(event) => props.onChange(event.currentTarget.value)}
      >
        <For each={props.options}>
          {(option) => (
            <option value={option.value} selected={option.value === props.value}>
              {option.name}
            </option>
          )}
        </For>
      </select>
      <Show when={fault() ?? props.hint}>
        {(note) => <small classList={{ "field-error": fault() !== undefined }}>{note()}</small>}
      </Show>
    </div>
  );
}

/** A count, by two big buttons. */
export function Stepper(props: {
  label: string;
  value: number;
  min: number;
  max: number;
  onChange: (value: number) => void;
}) {
  const to = (value: number): void => props.onChange(Math.min(props.max, Math.max(props.min, value)));
  return (
    <div class="field stepper" role="group" aria-label={props.label}>
      <span>{props.label}</span>
      <div>
        <button
          type="button"
          aria-label="one fewer"
          disabled={props.value <= props.min}
          onClick={() => to(props.value - 1)}
        >
          −
        </button>
        <output>{props.value}</output>
        <button
          type="button"
          aria-label="one more"
          disabled={props.value >= props.max}
          onClick={() => to(props.value + 1)}
        >
          +
        </button>
      </div>
    </div>
  );
}
