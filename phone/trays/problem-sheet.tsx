import { For, createSignal } from "solid-js";
import type { Tray } from "#shared/kitchen/model/state.ts";
import type { ProblemKind } from "#shared/kitchen/model/vocabulary.ts";
import { Stepper, TextField } from "#phone/ui/fields.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { Sheet } from "#phone/ui/sheet.tsx";

/** What went wrong, on how many: it goes into the tray's history, so that someone can find out why. */
export function ProblemSheet(props: { tray: Tray; onClose: () => void }) {
  const { words, act } = usePhone();
  const [count, setCount] = createSignal(1);
  const [note, setNote] = createSignal("");
  const kinds = () => Object.entries(words().terms.problems) as [ProblemKind, string][];
  const report = (problem: ProblemKind): void => {
    const noted = note().trim();
    props.onClose();
    act(
      {
        type: "report-problem",
        trayId: props.tray.id,
        problem,
        count: count(),
        ...(noted === "" ? {} : { note: noted }),
      },
      words().trays.said.problem(props.tray.number, count(), problem),
    );
  };
  return (
    <Sheet title={words().trays.whatWrong(props.tray.number)} onClose={props.onClose}>
      <Stepper
        label={words().trays.cookies}
        value={count()}
        min={1}
        max={props.tray.count}
        onChange={setCount}
      />
      <TextField label={words().trays.note} value={note()} onInput={setNote} maxLength={140} />
      <div class="choices">
        <For each={kinds()}>
          {([problem, text]) => (
            <button type="button" onClick={() => report(problem)}>
              {text}
            </button>
          )}
        </For>
      </div>
      <button type="button" class="plain" onClick={() => props.onClose()}>
        {words().trays.nothing}
      </button>
    </Sheet>
  );
}
