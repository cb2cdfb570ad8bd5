import { Show } from "solid-js";
import { usePhone } from "#phone/app/phone.tsx";
import { createTapGuard } from "#shared/client/screen/tap-guard.ts";
import { Sheet } from "./sheet.tsx";

/** Why an act was not done; and, where a second tap may accept the risk, that tap. */
export function QuestionSheet() {
  const { question, closeQuestion, act, timer, words } = usePhone();
  const asks = () => words().forms.question;
  const settled = createTapGuard(timer, question);
  return (
    <Show when={question()} keyed>
      {(asked) => (
        <Sheet
          title={asked.accept === undefined ? asks().notDone : asks().risk}
          tone="risk"
          onClose={closeQuestion}
        >
          <p class="sheet-message">{words().refusals.say(asked.fact)}</p>
          <Show when={asked.accept} keyed>
            {(accept) => (
              <button
                type="button"
                class="act risk"
                aria-disabled={!settled()}
                onClick={() => {
                  if (!settled()) return;
                  closeQuestion();
                  act(accept.input, accept.said, accept.atMs);
                }}
              >
                {asks().anyway}
                <small>{asks().riskHint}</small>
              </button>
            )}
          </Show>
          <button type="button" class="plain" onClick={closeQuestion}>
            {asked.accept === undefined ? words().forms.close : words().forms.cancel}
          </button>
        </Sheet>
      )}
    </Show>
  );
}
