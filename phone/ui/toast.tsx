import { Show } from "solid-js";
import { useFirst } from "#phone/app/phone.tsx";
import type { Toast } from "#phone/app/phone.tsx";

/** What was just done, with its undo for 20 s. */
export function ToastBar() {
  const { toast, closeToast, actAll, words } = useFirst();
  const undoOf = ({ undo = [] }: Toast) => (undo.length > 0 ? undo : undefined);
  return (
    <div role="status">
      <Show when={toast()} keyed>
        {(shown) => (
          <div class="toast">
            <span>{shown.text}</span>
            <Show when={undoOf(shown)} keyed>
              {(undo) => (
                <button
                  type="button"
                  onClick={() => {
                    closeToast();
                    actAll(undo, (count) => words().app.takenBack(count));
                  }}
                >
                  {words().app.undo}
                </button>
              )}
            </Show>
          </div>
        )}
      </Show>
    </div>
  );
}
