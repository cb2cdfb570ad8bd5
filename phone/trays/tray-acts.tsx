import { For, Show, createSignal } from "solid-js";
import type { Tray } from "#shared/kitchen/model/state.ts";
import type { TouchFinding } from "#shared/kitchen/model/vocabulary.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { MoveSheet } from "./move-sheet.tsx";
import { ProblemSheet } from "./problem-sheet.tsx";

const FINDINGS: readonly { finding: TouchFinding; name: string }[] = [
  { finding: "still wet", name: "Still wet" },
  { finding: "skinned", name: "Skinned" },
  { finding: "firm", name: "Firm" },
];

/** Touch tests, heat, move, problem, and whose tray it is. */
export function TrayActs(props: { tray: Tray }) {
  const { board, act, go } = usePhone();
  const [sheet, setSheet] = createSignal<"move" | "problem">();
  const [chosenLayer, setChosenLayer] = createSignal<number>();
  const number = (): number => props.tray.number;
  const isPacked = (): boolean => props.tray.standing.stage === "packed";
  const underHeat = (): boolean => props.tray.standing.stage === "heat-set";
  const canHeat = (): boolean =>
    !underHeat() && !isPacked() && (props.tray.films.length > 0 || props.tray.standing.stage === "flooding");
  const layers = (): number[] => props.tray.films.map((film) => film.layer);
  const layer = (): number => chosenLayer() ?? layers().at(-1) ?? 0;
  const touched = (finding: TouchFinding): void =>
    void act(
      { type: "touch-test", trayId: props.tray.id, layer: layer(), finding },
      `Tray ${number()}, layer ${layer() + 1} found ${finding}`,
    );
  const owner = (): string => board.kitchen().people[props.tray.assignedTo ?? ""]?.name ?? "";
  const isMine = (): boolean => props.tray.assignedTo === board.me.personId;
  return (
    <>
      <Show when={props.tray.films.length > 0 && !isPacked()}>
        <div class="acts">
          <For each={FINDINGS}>
            {(one) => (
              <button type="button" onClick={() => touched(one.finding)}>
                {one.name}
                <small>{layers().length > 1 ? `touch, layer ${layer() + 1}` : "touch test"}</small>
              </button>
            )}
          </For>
        </div>
      </Show>
      <div class="acts">
        <Show when={canHeat()}>
          <button type="button" onClick={() => go(`t/${number()}/heat`)}>
            Heat-set
          </button>
        </Show>
        <Show when={!isPacked() && !underHeat()}>
          <button type="button" onClick={() => setSheet("move")}>
            Move
          </button>
        </Show>
        <button type="button" onClick={() => setSheet("problem")}>
          Problem
        </button>
      </div>
      <Show when={layers().length > 1 && !isPacked()}>
        <div class="switch" role="group" aria-label="Which layer was touched">
          <For each={layers()}>
            {(one) => (
              <button type="button" aria-pressed={one === layer()} onClick={() => setChosenLayer(one)}>
                Touched layer {one + 1}
              </button>
            )}
          </For>
        </div>
      </Show>
      <Show when={!isPacked()}>
        <p class="owner">
          <span>{isMine() ? "Yours" : owner() === "" ? "Nobody's yet" : `${owner()}'s`}</span>
          <button
            type="button"
            class="small"
            onClick={() =>
              act(
                { type: "assign-tray", trayId: props.tray.id, to: isMine() ? null : board.me.personId },
                isMine() ? `Tray ${number()} given back` : `Tray ${number()} taken`,
              )
            }
          >
            {isMine() ? "Give it back" : owner() === "" ? "Take it" : "Take it over"}
          </button>
        </p>
      </Show>
      <Show when={sheet() === "move"}>
        <MoveSheet tray={props.tray} onClose={() => setSheet(undefined)} />
      </Show>
      <Show when={sheet() === "problem"}>
        <ProblemSheet tray={props.tray} onClose={() => setSheet(undefined)} />
      </Show>
    </>
  );
}
