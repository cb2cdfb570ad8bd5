import { Show } from "solid-js";
import { usePhone } from "./phone.tsx";

/** What was just done, with its undo for 20 s. */
export function ToastBar() {
  const { toast, closeToast, act } = usePhone();
  return (
    <div class="toast-place" role="status">
      <Show when={toast()} keyed>
        {(shown) => (
          <div class="toast">
            <span>{shown.text}</span>
            <Show when={shown.undo} keyed>
              {(undo) => (
                <button
                  type="button"
                  onClick={() => {
                    closeToast();
                    act(undo, "Taken back");
                  }}
                >
                  Undo
                </button>
              )}
            </Show>
          </div>
        )}
      </Show>
    </div>
  );
}
