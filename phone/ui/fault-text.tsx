import { Show } from "solid-js";

/** What is wrong, read out as it appears. */
export function FaultText(props: { text: string | undefined }) {
  return (
    <Show when={props.text}>
      {(text) => (
        <p class="field-error" role="alert">
          {text()}
        </p>
      )}
    </Show>
  );
}
