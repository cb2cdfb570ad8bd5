import { For, Show, createSignal, createUniqueId } from "solid-js";
import { Dynamic } from "solid-js/web";
import type * as v from "valibot";
import { useWords } from "#shared/client/screen/language.ts";
import { isOptional, longestOf, parse } from "#shared/fields.ts";
import { createFault, useForm } from "./form.tsx";

/** Form fields: a label, a big target, and a sentence when what was typed cannot be. */

export function TextField(props: {
  label: string;
  value: string;
  onInput: (value: string) => void;
  /** What it must be; without one it may be anything. */
  schema?: v.GenericSchema;
  hint?: string | undefined;
  maxLength?: number;
  list?: readonly string[];
  type?: "text" | "date" | "datetime-local" | "time" | "color";
  required?: boolean;
  capitalise?: "characters" | "words" | "none";
  /** More than a line is written. */
  isLong?: boolean;
}) {
  const id = createUniqueId();
  const words = useWords();
  const form = useForm();
  const [isLeft, setLeft] = createSignal(false);
  const fault = createFault(
    () => props.label,
    () => {
      const { schema, value, label } = props;
      if (schema === undefined || !(isLeft() || form.isTried())) return undefined;
      if (value.trim() === "") return isOptional(schema) ? undefined : words().forms.missing(label);
      const parsed = parse(schema, value);
      return parsed.ok ? undefined : `${words().faults.say({ field: label, must: parsed.refusal.must })}.`;
    },
  );
  const note = (): string | undefined => fault() ?? props.hint;
  return (
    <div class="field">
      <label for={id}>{props.label}</label>
      <Dynamic
        component={props.isLong === true ? "textarea" : "input"}
        id={id}
        {...(props.isLong === true ? { rows: 4 } : { type: props.type ?? "text" })}
        value={props.value}
        maxLength={props.schema === undefined ? props.maxLength : longestOf(props.schema)}
        required={props.required}
        autocomplete="off"
        autocapitalize={props.capitalise ?? "sentences"}
        list={props.list === undefined ? undefined : `${id}-list`}
        aria-invalid={fault() !== undefined}
        aria-describedby={note() === undefined ? undefined : `${id}-hint`}
        onInput={(event: { currentTarget: { value: string } }) => props.onInput(event.currentTarget.value)}
        onBlur={() => setLeft(true)}
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

/** One of a few, all in sight. */
export function Choice<Value extends string>(props: {
  label: string;
  value: Value;
  options: readonly { value: Value; name: string; hint?: string | undefined }[];
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
  hint?: string | undefined;
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
  const words = useWords();
  const to = (value: number): void => props.onChange(Math.min(props.max, Math.max(props.min, value)));
  return (
    <div class="field stepper" role="group" aria-label={props.label}>
      <span>{props.label}</span>
      <div>
        <button
          type="button"
          aria-label={words().forms.fewer}
          disabled={props.value <= props.min}
          onClick={() => to(props.value - 1)}
        >
          −
        </button>
        <output>{props.value}</output>
        <button
          type="button"
          aria-label={words().forms.more}
          disabled={props.value >= props.max}
          onClick={() => to(props.value + 1)}
        >
          +
        </button>
      </div>
    </div>
  );
}
