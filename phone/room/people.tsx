import { For, Show, createMemo, createSignal } from "solid-js";
import type { PersonId } from "#shared/ids.ts";
import { compareNames } from "#shared/kitchen/model/by-name.ts";
import { peopleHere, peopleWithoutActs } from "#shared/kitchen/model/people.ts";
import type { Person } from "#shared/kitchen/model/vocabulary.ts";
import { usePhone } from "#phone/app/phone.tsx";

/** Who is in the kitchen, and who may change it. */
export function People() {
  const { board, isLead, act } = usePhone();
  const [ticked, setTicked] = createSignal<ReadonlySet<PersonId>>();
  const people = createMemo(() =>
    peopleHere(board.kitchen())
      .filter(({ role }) => role === "lead" || role === "decorator")
      .toSorted(compareNames),
  );
  const isMe = ({ id }: Person): boolean => id === board.me.personId;
  const going = createMemo(() => people().filter(({ id }) => ticked()?.has(id) === true));
  const idle = createMemo(() => peopleWithoutActs(board.kitchen()).filter((person) => !isMe(person)));
  const heard = (personId: string): string => {
    const devices = board.presence().devices.filter((device) => device.personId === personId);
    if (devices.length === 0) return "no phone connected";
    return devices.some((device) => device.canAlert)
      ? "connected, can be alerted"
      : "connected, cannot be alerted";
  };
  function tick(id: PersonId, isTicked: boolean): void {
    const next = new Set(ticked());
    if (isTicked) next.add(id);
    else next.delete(id);
    setTicked(next);
  }
  function remove(): void {
    const gone = going();
    const said = gone.length === 1 ? `${gone[0]?.name} removed` : `${gone.length} people removed`;
    if (act({ type: "remove-people", personIds: gone.map(({ id }) => id) }, said)) setTicked(undefined);
  }
  const role = (person: Person): string => (person.isBench === true ? "bench screen" : person.role);
  return (
    <>
      <ul class="cards">
        <For each={people()}>
          {(person) => (
            <li class="check-line">
              <Show when={ticked() !== undefined && !isMe(person)}>
                <label class="tick">
                  <input
                    type="checkbox"
                    aria-label={`Remove ${person.name}`}
                    checked={ticked()?.has(person.id) === true}
                    onChange={(event) => tick(person.id, event.currentTarget.checked)}
                  />
                </label>
              </Show>
              <span class="words">
                <strong>
                  <bdi>{person.name}</bdi>
                  {isMe(person) ? " (you)" : ""}
                </strong>
                <span>
                  {role(person)} · {heard(person.id)}
                </span>
              </span>
              <Show when={isLead() && ticked() === undefined && person.isBench !== true}>
                <button
                  type="button"
                  class="small"
                  onClick={() =>
                    act(
                      {
                        type: "set-role",
                        personId: person.id,
                        role: person.role === "lead" ? "decorator" : "lead",
                      },
                      `${person.name} is ${person.role === "lead" ? "a decorator" : "a lead"}`,
                    )
                  }
                >
                  {person.role === "lead" ? "Make decorator" : "Make lead"}
                </button>
              </Show>
            </li>
          )}
        </For>
      </ul>
      <Show when={isLead() && people().length > 1}>
        <Show
          when={ticked() !== undefined}
          fallback={
            <button type="button" class="small" onClick={() => setTicked(new Set<PersonId>())}>
              Remove people…
            </button>
          }
        >
          <p>Their phones must join again. What they did keeps their name.</p>
          <div class="row">
            <Show when={idle().length > 0}>
              <button
                type="button"
                class="small"
                onClick={() => setTicked(new Set(idle().map(({ id }) => id)))}
              >
                Tick the {idle().length} with nothing on the board
              </button>
            </Show>
            <button type="button" class="small" disabled={going().length === 0} onClick={remove}>
              Remove {going().length} {going().length === 1 ? "person" : "people"}
            </button>
            <button type="button" class="small" onClick={() => setTicked(undefined)}>
              Cancel
            </button>
          </div>
        </Show>
      </Show>
    </>
  );
}
