import { type JSX, Show, createSignal } from "solid-js";

/** What is unfolded by a tap, and made only then. */
export function Folded(props: { title: string; children: JSX.Element }) {
  const [isOpen, setOpen] = createSignal(false);
  return (
    <details class="folded" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{props.title}</summary>
      <Show when={isOpen()}>{props.children}</Show>
    </details>
  );
}
