import { Show } from "solid-js";
import type { JSX } from "solid-js";

/** A form's frame: its fields, what is wrong, save, take away, leave. */
export function Form(props: {
  children: JSX.Element;
  fault?: string | undefined;
  /** "Save" unless told. */
  save?: string | undefined;
  onSave: () => void;
  /** Only for a thing that is there already; "Remove" unless told. */
  onRemove?: (() => void) | undefined;
  remove?: string | undefined;
  /** Leaves it as it was. */
  onLeave?: (() => void) | undefined;
}) {
  return (
    <form
      class="form"
      onSubmit={(event) => {
        event.preventDefault();
        props.onSave();
      }}
    >
      {props.children}
      <Show when={props.fault}>
        <p class="field-error" role="alert">
          {props.fault}
        </p>
      </Show>
      <button type="submit" class="act">
        {props.save ?? "Save"}
      </button>
      <Show when={props.onLeave}>
        {(leave) => (
          <div class="choices">
            <Show when={props.onRemove}>
              {(remove) => (
                <button type="button" onClick={() => remove()()}>
                  {props.remove ?? "Remove"}
                </button>
              )}
            </Show>
            <button type="button" onClick={() => leave()()}>
              Leave it
            </button>
          </div>
        )}
      </Show>
    </form>
  );
}
