import { For, Index, Show, createUniqueId } from "solid-js";
import { Dynamic } from "solid-js/web";
import { shows } from "./input-value.ts";

/** Form fields that look at nothing: a label, a big target, and what somebody else says is wrong. */

export interface Plain {
  label: string;
  value: string;
  onInput: (value: string) => void;
  fault?: string | undefined;
  hint?: string | undefined;
  maxLength?: number | undefined;
  list?: readonly string[];
  type?: "text" | "date" | "datetime-local" | "time" | "color";
  required?: boolean;
  capitalise?: "characters" | "words" | "none";
  /** More than a line is written. */
  isLong?: boolean;
  onLeave?: () => void;
}

export function PlainField(props: Plain) {
  const id = createUniqueId();
  const note = (): string | undefined => props.fault ?? props.hint;
  return (
    <div class="field">
      <label for={id}>{props.label}</label>
      <Dynamic
        component={props.isLong === true ? "textarea" : "input"}
        id={id}
        {...(props.isLong === true ? { rows: 4 } : { type: props.type ?? "text" })}
        ref={shows(() => props.value)}
        maxLength={props.maxLength}
        required={props.required}
        autocomplete="off"
        autocapitalize={props.capitalise ?? "sentences"}
        list={props.list === undefined ? undefined : `${id}-list`}
        aria-invalid={props.fault !== undefined}
        aria-describedby={note() === undefined ? undefined : `${id}-hint`}
        onInput={(event: { currentTarget: { value: string } }) => props.onInput(event.currentTarget.value)}
        onBlur={() => props.onLeave?.()}
      />
      <Show when={props.list}>
        <datalist id={`${id}-list`}>
          <For each={props.list}>{(one) => <option value={one} />}</For>
        </datalist>
      </Show>
      <Show when={note()}>
        <small id={`${id}-hint`} classList={{ "field-error": props.fault !== undefined }}>
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
      <Index each={props.options}>
        {(option) => (
          <label>
            <input
              type="radio"
              name={name}
              checked={option().value === props.value}
              onChange={() => props.onChange(option().value)}
            />
            <span>
              {option().name}
              <Show when={option().hint}>
                <small>{option().hint}</small>
              </Show>
            </span>
          </label>
        )}
      </Index>
    </fieldset>
  );
}
