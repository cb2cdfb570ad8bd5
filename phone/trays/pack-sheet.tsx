import { For, createSignal } from "solid-js";
import { goodOn } from "#shared/kitchen/model/lookups.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import { ProblemKind } from "#shared/kitchen/model/vocabulary.ts";
import { Stepper } from "#phone/ui/fields.tsx";
import { Sheet } from "#phone/ui/sheet.tsx";
import { usePhone } from "#phone/app/phone.tsx";

/** Packs a tray of which some are not good: seconds, and lost ones by what went wrong. */
export function PackSheet(props: { tray: Tray; onClose: () => void }) {
  const { words, act } = usePhone();
  const [seconds, setSeconds] = createSignal(0);
  const [lost, setLost] = createSignal<Partial<Record<ProblemKind, number>>>({});
  const lostOf = (problem: ProblemKind): number => lost()[problem] ?? 0;
  const good = (): number => {
    const allLost = Object.values(lost()).reduce((sum, count) => sum + count, 0);
    return goodOn(props.tray) - seconds() - allLost;
  };
  function pack(): void {
    const counts = ProblemKind.options
      .map((problem) => ({ problem, count: lostOf(problem) }))
      .filter(({ count }) => count > 0);
    const { id: trayId, number } = props.tray;
    const said = words().packing.said(number, good());
    props.onClose();
    act(
      {
        type: "pack",
        trayId,
        ...(seconds() > 0 && { seconds: seconds() }),
        ...(counts.length > 0 && { lost: counts }),
      },
      said,
    );
  }
  return (
    <Sheet title={words().packing.whichNot(props.tray.number)} onClose={props.onClose}>
      <div class="pack-lost">
        <Stepper
          label={words().packing.seconds}
          value={seconds()}
          min={0}
          max={seconds() + good()}
          onChange={setSeconds}
        />
        <h3>{words().packing.lost}</h3>
        <For each={ProblemKind.options}>
          {(problem) => (
            <Stepper
              label={words().terms.problems[problem]}
              value={lostOf(problem)}
              min={0}
              max={lostOf(problem) + good()}
              onChange={(count) => setLost({ ...lost(), [problem]: count })}
            />
          )}
        </For>
      </div>
      <div class="pack-foot">
        <p class="pack-good" role="status">
          {words().packing.good(good(), props.tray.count)}
        </p>
        <button type="button" class="act" onClick={pack}>
          {words().packing.pack(good())}
          <small>{words().trays.undoHint}</small>
        </button>
      </div>
      <button type="button" class="plain" onClick={() => props.onClose()}>
        {words().forms.cancel}
      </button>
    </Sheet>
  );
}
