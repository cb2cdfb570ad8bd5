import { Index, Show, createSignal, createUniqueId } from "solid-js";
import type * as v from "valibot";
import { useWords } from "#shared/client/screen/language.ts";
import { isOptional, longestOf, parse } from "#shared/fields.ts";
import { createFault, useForm } from "./form.tsx";
import { type Plain, PlainField } from "./plain-field.tsx";

/** Form fields: a label, a big target, and a sentence when what was typed cannot be. */

export function TextField(
  props: {
    /** What it must be; without one it may be anything. */
    schema?: v.GenericSchema;
  } & Omit<Plain, "fault" | "onLeave">,
) {
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
  return (
    <PlainField
      {...props}
      fault={fault()}
      maxLength={props.schema === undefined ? props.maxLength : longestOf(props.schema)}
      onLeave={() => setLeft(true)}
    />
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
        <Index each={props.options}>
          {(option) => (
            <option value={option().value} selected={option().value === props.value}>
              {option().name}
            </option>
          )}
        </Index>
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
