import { For, Show, createMemo, createSignal } from "solid-js";
import type { PersonId } from "#shared/ids.ts";
import { compareNames } from "#shared/collections.ts";
import { peopleHere, peopleWithoutActs } from "#shared/kitchen/model/people.ts";
import type { Person } from "#shared/kitchen/model/vocabulary.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { HoursSheet } from "./hours-sheet.tsx";

/** Who is in the kitchen, and who may change it. */
export function People() {
  const { board, isLead, act, words } = usePhone();
  const person = () => words().room.person;
  const [ticked, setTicked] = createSignal<ReadonlySet<PersonId>>();
  const [timed, setTimed] = createSignal<Person>();
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
    if (devices.length === 0) return person().noPhone;
    return devices.some((device) => device.canAlert) ? person().canBeAlerted : person().cannotBeAlerted;
  };
  function tick(id: PersonId, isTicked: boolean): void {
    const next = new Set(ticked());
    if (isTicked) next.add(id);
    else next.delete(id);
    setTicked(next);
  }
  function remove(): void {
    const gone = going();
    const said =
      gone.length === 1
        ? person().removed(gone[0]?.name ?? "")
        : words().room.removePeople.removed(gone.length);
    if (act({ type: "remove-people", personIds: gone.map(({ id }) => id) }, said)) setTicked(undefined);
  }
  const role = (one: Person): string =>
    one.isBench === true ? person().bench : words().terms.roles[one.role];
  return (
    <>
      <ul class="cards">
        <For each={people()}>
          {(one) => (
            <li class="check-line">
              <Show when={ticked() !== undefined && !isMe(one)}>
                <label class="tick">
                  <input
                    type="checkbox"
                    aria-label={person().remove(one.name)}
                    checked={ticked()?.has(one.id) === true}
                    onChange={(event) => tick(one.id, event.currentTarget.checked)}
                  />
                </label>
              </Show>
              <span class="words">
                <strong>
                  <bdi>{one.name}</bdi>
                  {isMe(one) ? person().you : ""}
                </strong>
                <span>
                  {role(one)} · {heard(one.id)}
                  {one.hours === undefined ? "" : ` · ${person().ownHours}`}
                </span>
              </span>
              <Show when={isLead() && ticked() === undefined && one.isBench !== true}>
                <span class="row">
                  <button
                    type="button"
                    class="small"
                    onClick={() =>
                      act(
                        {
                          type: "set-role",
                          personId: one.id,
                          role: one.role === "lead" ? "decorator" : "lead",
                        },
                        one.role === "lead" ? person().isDecorator(one.name) : person().isLead(one.name),
                      )
                    }
                  >
                    {one.role === "lead" ? person().makeDecorator : person().makeLead}
                  </button>
                  <button
                    type="button"
                    class="small"
                    aria-label={person().setHoursOf(one.name)}
                    onClick={() => setTimed(one)}
                  >
                    {person().setHours}
                  </button>
                </span>
              </Show>
            </li>
          )}
        </For>
      </ul>
      <Show when={timed()} keyed>
        {(one) => <HoursSheet person={one} onClose={() => setTimed(undefined)} />}
      </Show>
      <Show when={isLead() && people().length > 1}>
        <Show
          when={ticked() !== undefined}
          fallback={
            <button type="button" class="small" onClick={() => setTicked(new Set<PersonId>())}>
              {words().room.removePeople.start}
            </button>
          }
        >
          <p>{words().room.removePeople.explained}</p>
          <div class="row">
            <Show when={idle().length > 0}>
              <button
                type="button"
                class="small"
                onClick={() => setTicked(new Set(idle().map(({ id }) => id)))}
              >
                {words().room.removePeople.tickIdle(idle().length)}
              </button>
            </Show>
            <button type="button" class="small" disabled={going().length === 0} onClick={remove}>
              {words().room.removePeople.confirm(going().length)}
            </button>
            <button type="button" class="small" onClick={() => setTicked(undefined)}>
              {words().forms.cancel}
            </button>
          </div>
        </Show>
      </Show>
    </>
  );
}
