import { Show } from "solid-js";
import { usePhone } from "#phone/app/phone.tsx";
import { createTapGuard } from "#shared/client/screen/tap-guard.ts";
import { Sheet } from "./sheet.tsx";

/** Why an act was not done; and, where a second tap may accept the risk, that tap. */
export function QuestionSheet() {
  const { question, closeQuestion, act, timer } = usePhone();
  const settled = createTapGuard(timer, question);
  return (
    <Show when={question()} keyed>
      {(asked) => (
        <Sheet
          title={asked.accept === undefined ? "Not done" : "Do you take the risk?"}
          tone="risk"
          onClose={closeQuestion}
        >
          <p class="sheet-message">{asked.message}</p>
          <Show when={asked.accept} keyed>
            {(accept) => (
              <button
                type="button"
                class="act risk"
                aria-disabled={!settled()}
                onClick={() => {
                  if (!settled()) return;
                  closeQuestion();
                  act(accept.wish, accept.said, accept.atMs);
                }}
              >
                Do it anyway
                <small>the risk goes into the tray's history</small>
              </button>
            )}
          </Show>
          <button type="button" class="plain" onClick={closeQuestion}>
            {asked.accept === undefined ? "Close" : "Cancel"}
          </button>
        </Sheet>
      )}
    </Show>
  );
}
