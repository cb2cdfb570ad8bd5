import { Show } from "solid-js";

/** The foot of a form that edits one thing: what is wrong, save, take away, leave. */
export function FormFoot(props: {
  fault?: string | undefined;
  /** Only for a thing that is there already. */
  onRemove?: (() => void) | undefined;
  onDone: () => void;
}) {
  return (
    <>
      <Show when={props.fault}>
        <p class="field-error" role="alert">
          {props.fault}
        </p>
      </Show>
      <button type="submit" class="act">
        Save
      </button>
      <div class="choices">
        <Show when={props.onRemove}>
          {(remove) => (
            <button type="button" onClick={() => remove()()}>
              Remove
            </button>
          )}
        </Show>
        <button type="button" onClick={() => props.onDone()}>
          Leave it
        </button>
      </div>
    </>
  );
}
