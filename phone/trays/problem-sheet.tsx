import { For, createSignal } from "solid-js";
import type { Tray } from "#shared/kitchen/model/state.ts";
import type { ProblemKind } from "#shared/kitchen/model/vocabulary.ts";
import { PROBLEM_WORDS } from "#shared/words/wording.ts";
import { Stepper, TextField } from "#phone/ui/fields.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { Sheet } from "#phone/ui/sheet.tsx";

/** What went wrong, on how many: it goes into the tray's history, so that someone can find out why. */
export function ProblemSheet(props: { tray: Tray; onClose: () => void }) {
  const { act } = usePhone();
  const [count, setCount] = createSignal(1);
  const [note, setNote] = createSignal("");
  const kinds = Object.entries(PROBLEM_WORDS) as [ProblemKind, string][];
  const report = (problem: ProblemKind): void => {
    const words = note().trim();
    props.onClose();
    act(
      {
        type: "report-problem",
        trayId: props.tray.id,
        problem,
        count: count(),
        ...(words === "" ? {} : { note: words }),
      },
      `Tray ${props.tray.number}: ${count()} ${problem}`,
    );
  };
  return (
    <Sheet title={`What went wrong on tray ${props.tray.number}?`} onClose={props.onClose}>
      <Stepper label="Cookies" value={count()} min={1} max={props.tray.count} onChange={setCount} />
      <TextField label="A note, if it helps" value={note()} onInput={setNote} maxLength={140} />
      <div class="choices">
        <For each={kinds}>
          {([problem, words]) => (
            <button type="button" onClick={() => report(problem)}>
              {words}
            </button>
          )}
        </For>
      </div>
      <button type="button" class="plain" onClick={() => props.onClose()}>
        Nothing
      </button>
    </Sheet>
  );
}
