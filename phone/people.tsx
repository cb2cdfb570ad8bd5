import { compareNames } from "#shared/kitchen/by-name.ts";
import { For, Show, createMemo } from "solid-js";
import { usePhone } from "./phone.tsx";

/** Who is in the kitchen, and who may change it. */
export function People() {
  const { board, isLead, act } = usePhone();
  const people = createMemo(() =>
    Object.values(board.kitchen().people)
      .filter(({ role }) => role === "lead" || role === "decorator")
      .toSorted(compareNames),
  );
  const heard = (personId: string): string => {
    const devices = board.presence().devices.filter((device) => device.personId === personId);
    if (devices.length === 0) return "no phone connected";
    return devices.some((device) => device.canAlert)
      ? "connected, can be alerted"
      : "connected, cannot be alerted";
  };
  return (
    <ul class="cards">
      <For each={people()}>
        {(person) => (
          <li class="check-line">
            <span class="words">
              <strong>
                {person.name}
                {person.id === board.me.personId ? " (you)" : ""}
              </strong>
              <span>
                {person.isBench === true ? "bench screen" : person.role} · {heard(person.id)}
              </span>
            </span>
            <Show when={isLead()}>
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
  );
}
