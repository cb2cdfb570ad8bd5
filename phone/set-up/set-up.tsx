import { For, Match, Show, Switch, createMemo, createSignal } from "solid-js";
import { NewDesign } from "#phone/designs/new-design.tsx";
import { Designs } from "#phone/designs/designs.tsx";
import { Icings } from "#phone/icing/icings.tsx";
import { KitchenForm } from "./kitchen-form.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { Places } from "./places.tsx";
import { ToolsEditor } from "./tools.tsx";
import { usualRoom } from "./usual-room.ts";

const STEPS = 5;

/** The first run, a step at a time: each step is saved as it is done, and everything can be changed later under Room. */
export function SetUp(props: { step: number }) {
  const { board, act, go, newId, words } = usePhone();
  const steps = () => words().setUp.steps;
  const usual = () => words().setUp.usualRoom;
  const step = (): number => Math.min(STEPS, Math.max(1, props.step));
  const [isAdding, setAdding] = createSignal(false);
  const isBare = createMemo(() => {
    const { places, tools, icings, designs } = board.kitchen();
    return [places, tools, icings, designs].every((table) => Object.keys(table).length === 0);
  });
  function startUsual(): void {
    const room = usualRoom(newId, usual().names);
    for (const place of room.places) act({ type: "put-place", place });
    for (const tool of room.tools) act({ type: "put-tool", tool });
    for (const icing of room.icings) act({ type: "put-icing", icing });
    if (act({ type: "put-design", design: room.design }, usual().done)) go(`set-up/${STEPS}`);
  }
  return (
    <main>
      <h1>{words().app.titles["set-up"]}</h1>
      <ol class="steps" aria-label={steps().label}>
        <For each={steps().names}>
          {(name, k) => (
            <li aria-current={k() + 1 === step() ? "step" : undefined} data-done={k() + 1 < step()}>
              {name}
            </li>
          )}
        </For>
      </ol>
      <Show when={step() > 1 && isBare()}>
        <button type="button" class="act" onClick={startUsual}>
          {usual().start}
          <small>{usual().has}</small>
        </button>
      </Show>
      <Show when={steps().notes[step() - 2]}>{(note) => <p class="note">{note()}</p>}</Show>
      <Switch>
        <Match when={step() === 1}>
          <KitchenForm isFirst={!board.kitchen().isSetUp} onDone={() => go("set-up/2")} />
        </Match>
        <Match when={step() === 2}>
          <Places />
        </Match>
        <Match when={step() === 3}>
          <ToolsEditor />
        </Match>
        <Match when={step() === 4}>
          <Icings />
        </Match>
        <Match when={step() === 5}>
          <Show when={isAdding()} fallback={<Designs onAdd={() => setAdding(true)} />}>
            <NewDesign onDone={() => setAdding(false)} />
          </Show>
        </Match>
      </Switch>
      <Show when={step() > 1}>
        <button
          type="button"
          class="act"
          onClick={() => go(step() === STEPS ? "orders/new" : `set-up/${step() + 1}`)}
        >
          {step() === STEPS ? steps().done : steps().next(steps().names[step()] ?? "")}
        </button>
        <button type="button" class="plain" onClick={() => go(`set-up/${step() - 1}`)}>
          {steps().back}
        </button>
      </Show>
    </main>
  );
}
