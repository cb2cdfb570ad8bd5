import { createUniqueId, onMount } from "solid-js";
import type { JSX } from "solid-js";

/**
 * A sheet from the bottom: a question, or a few choices. Closes by its button, Escape, or a tap beside it; by a tap not while
 * `isSettled` is false.
 */
export function Sheet(props: {
  title: string;
  onClose: () => void;
  children: JSX.Element;
  tone?: "risk";
  isSettled?: boolean;
}) {
  const titleId = createUniqueId();
  let dialog: HTMLDialogElement | undefined;
  onMount(() => dialog?.showModal());
  return (
    <dialog
      ref={dialog}
      class="sheet"
      data-tone={props.tone}
      aria-labelledby={titleId}
      onClose={() => props.onClose()}
      onClick={(event) => {
        if (event.target === dialog && props.isSettled !== false) dialog?.close();
      }}
    >
      <div class="sheet-body">
        <h2 id={titleId} tabindex="-1" autofocus>
          {props.title}
        </h2>
        {props.children}
      </div>
    </dialog>
  );
}
