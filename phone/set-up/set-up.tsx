import { For, Match, Show, Switch, createMemo } from "solid-js";
import { Designs } from "#phone/designs/designs.tsx";
import { Icings } from "#phone/icing/icings.tsx";
import { KitchenForm } from "./kitchen-form.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { Places } from "./places.tsx";
import { ToolsEditor } from "./tools.tsx";
import { usualRoom } from "./usual-room.ts";

const STEPS = ["Kitchen", "Places", "Heat tools", "Icings", "First design"] as const;

/** The first run, a step at a time: each step is saved as it is done, and everything can be changed later under Room. */
export function SetUp(props: { step: number }) {
  const { board, act, go, newId } = usePhone();
  const step = (): number => Math.min(STEPS.length, Math.max(1, props.step));
  const isBare = createMemo(() => {
    const { places, tools, icings, designs } = board.kitchen();
    return [places, tools, icings, designs].every((table) => Object.keys(table).length === 0);
  });
  function startUsual(): void {
    const room = usualRoom(newId);
    for (const place of room.places) act({ type: "put-place", place });
    for (const tool of room.tools) act({ type: "put-tool", tool });
    for (const icing of room.icings) act({ type: "put-icing", icing });
    act({ type: "put-design", design: room.design }, "A usual room is set up");
  }
  return (
    <main>
      <h1>Set up the kitchen</h1>
      <ol class="steps" aria-label="Steps">
        <For each={STEPS}>
          {(name, k) => (
            <li aria-current={k() + 1 === step() ? "step" : undefined} data-done={k() + 1 < step()}>
              {name}
            </li>
          )}
        </For>
      </ol>
      <Show when={step() > 1 && isBare()}>
        <button type="button" class="act" onClick={startUsual}>
          Start with a usual room
          <small>
            two racks, a fan rack, a bench, a low oven, a hot-air tool, three icings, one design: change what
            differs
          </small>
        </button>
      </Show>
      <Switch>
        <Match when={step() === 1}>
          <KitchenForm isFirst={!board.kitchen().isSetUp} onDone={() => go("set-up/2")} />
        </Match>
        <Match when={step() === 2}>
          <p class="note">Where trays stand, and the air over them: it decides how fast they dry.</p>
          <Places />
        </Match>
        <Match when={step() === 3}>
          <p class="note">What sets icing with heat. Leave it empty if you use none.</p>
          <ToolsEditor />
        </Match>
        <Match when={step() === 4}>
          <p class="note">Your colours. Water by consistency is the kitchen's, unless an icing differs.</p>
          <Icings />
        </Match>
        <Match when={step() === 5}>
          <p class="note">One design to begin with: its layers in the order you lay them.</p>
          <Designs />
        </Match>
      </Switch>
      <Show when={step() > 1}>
        <button
          type="button"
          class="act"
          onClick={() => go(step() === STEPS.length ? "orders/new" : `set-up/${step() + 1}`)}
        >
          {step() === STEPS.length ? "Done: add the first order" : `Next: ${STEPS[step()]}`}
        </button>
        <button type="button" class="plain" onClick={() => go(`set-up/${step() - 1}`)}>
          Back
        </button>
      </Show>
    </main>
  );
}
