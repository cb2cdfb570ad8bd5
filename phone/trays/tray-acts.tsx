import { For, Show, createSignal } from "solid-js";
import type { Tray } from "#shared/kitchen/model/state.ts";
import { handsHere } from "#shared/kitchen/model/people.ts";
import type { Person, TouchFinding } from "#shared/kitchen/model/vocabulary.ts";
import { useFirst } from "#phone/app/phone.tsx";
import { MoveSheet, ProblemSheet } from "#phone/app/parts.tsx";

const FINDINGS: readonly TouchFinding[] = ["still wet", "skinned", "firm"];

/** Touch tests, heat, move, problem, and whose tray it is. */
export function TrayActs(props: { tray: Tray }) {
  const { board, words, act, go, isLead } = useFirst();
  const [sheet, setSheet] = createSignal<"move" | "problem" | "give">();
  const [chosenLayer, setChosenLayer] = createSignal<number>();
  const number = (): number => props.tray.number;
  const isPacked = (): boolean => props.tray.status.stage === "packed";
  const underHeat = (): boolean => props.tray.status.stage === "heat-set";
  const canHeat = (): boolean =>
    !underHeat() && !isPacked() && (props.tray.films.length > 0 || props.tray.status.stage === "flooding");
  const layers = (): number[] => props.tray.films.map((film) => film.layer);
  const layer = (): number => chosenLayer() ?? layers().at(-1) ?? 0;
  const touched = (finding: TouchFinding): void =>
    void act(
      { type: "touch-test", trayId: props.tray.id, layer: layer(), finding },
      words().trays.said.found(number(), layer() + 1, finding),
    );
  const owner = (): string => board.kitchen().people[props.tray.assignedTo ?? ""]?.name ?? "";
  const others = (): Person[] => handsHere(board.kitchen()).filter(({ id }) => id !== board.me.personId);
  const isMine = (): boolean => props.tray.assignedTo === board.me.personId;
  return (
    <>
      <Show when={props.tray.films.length > 0 && !isPacked()}>
        <div class="acts">
          <For each={FINDINGS}>
            {(finding) => (
              <button type="button" onClick={() => touched(finding)}>
                {words().terms.findings[finding]}
                <small>
                  {layers().length > 1 ? words().trays.touchLayer(layer() + 1) : words().trays.touchTest}
                </small>
              </button>
            )}
          </For>
        </div>
      </Show>
      <div class="acts">
        <Show when={canHeat()}>
          <button type="button" onClick={() => go(`t/${number()}/heat`)}>
            {words().trays.heatSet}
          </button>
        </Show>
        <Show when={!isPacked() && !underHeat()}>
          <button type="button" onClick={() => setSheet("move")}>
            {words().trays.move}
          </button>
        </Show>
        <button type="button" onClick={() => setSheet("problem")}>
          {words().trays.problem}
        </button>
      </div>
      <Show when={layers().length > 1 && !isPacked()}>
        <div class="switch" role="group" aria-label={words().trays.whichTouched}>
          <For each={layers()}>
            {(one) => (
              <button type="button" aria-pressed={one === layer()} onClick={() => setChosenLayer(one)}>
                {words().trays.touchedLayer(one + 1)}
              </button>
            )}
          </For>
        </div>
      </Show>
      <Show when={!isPacked()}>
        <p class="owner">
          <span class="whose">
            {isMine()
              ? words().trays.yours
              : owner() === ""
                ? words().trays.nobodys
                : words().trays.someones(owner())}
          </span>
          <span class="row">
            <Show when={isLead() && others().length > 0}>
              <button
                type="button"
                class="small"
                aria-expanded={sheet() === "give"}
                onClick={() => setSheet(sheet() === "give" ? undefined : "give")}
              >
                {words().trays.giveTo}
              </button>
            </Show>
            <button
              type="button"
              class="small"
              onClick={() =>
                act(
                  { type: "assign-tray", trayId: props.tray.id, to: isMine() ? null : board.me.personId },
                  (isMine() ? words().trays.said.givenBack : words().trays.said.taken)(number()),
                )
              }
            >
              {isMine()
                ? words().trays.giveBack
                : owner() === ""
                  ? words().trays.takeIt
                  : words().trays.takeOver}
            </button>
          </span>
        </p>
      </Show>
      <Show when={sheet() === "give"}>
        <GiveTo tray={props.tray} people={others()} onGiven={() => setSheet(undefined)} />
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

/** A lead gives a tray to somebody: the plan has it in their hands from then on. */
function GiveTo(props: { tray: Tray; people: readonly Person[]; onGiven: () => void }) {
  const { words, act } = useFirst();
  const give = ({ id, name }: Person): void => {
    const said = words().trays.given(props.tray.number, name);
    void act({ type: "assign-tray", trayId: props.tray.id, to: id }, said);
    props.onGiven();
  };
  return (
    <div class="choices" role="group" aria-label={words().trays.giveTo}>
      <For each={props.people}>
        {(person) => (
          <button
            type="button"
            aria-pressed={props.tray.assignedTo === person.id}
            onClick={() => give(person)}
          >
            {words().format.name(person.name)}
          </button>
        )}
      </For>
    </div>
  );
}
