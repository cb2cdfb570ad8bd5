import { Show, createSignal } from "solid-js";
import type { Week } from "#shared/kitchen/model/settings.ts";
import type { Person } from "#shared/kitchen/model/vocabulary.ts";
import { createDraft } from "#phone/ui/draft.ts";
import { Choice } from "#phone/ui/plain-field.tsx";
import { Form } from "#phone/ui/form.tsx";
import { Sheet } from "#phone/ui/sheet.tsx";
import { type DayDraft, WeekHours } from "#phone/ui/week-hours.tsx";
import { usePhone } from "#phone/app/phone.tsx";

const WHOSE = ["whole", "own"] as const;

/** When a person works: all opening hours, or hours of their own within them. */
export function HoursSheet(props: { person: Person; onClose: () => void }) {
  const { board, act, words } = usePhone();
  const text = () => words().room.person;
  const { id, name, hours } = props.person;
  const [whose, setWhose] = createSignal<(typeof WHOSE)[number]>(hours === undefined ? "whole" : "own");
  const { draft: days, set: setDays } = createDraft<Record<number, DayDraft>>(
    Object.fromEntries((hours ?? board.kitchen().settings.opening).entries()),
  );
  function save(): void {
    const own = [0, 1, 2, 3, 4, 5, 6].map((day) => days[day] ?? null) as Week;
    const wanted = whose() === "own" ? own : null;
    if (act({ type: "set-hours", personId: id, hours: wanted }, text().hoursSet(name))) props.onClose();
  }
  return (
    <Sheet title={text().setHoursOf(name)} onClose={props.onClose}>
      <Form isBare onSave={save} onLeave={() => props.onClose()}>
        <Choice
          label={text().hours.label}
          value={whose()}
          options={WHOSE.map((value) => ({ value, name: text().hours[value] }))}
          onChange={setWhose}
        />
        <Show when={whose() === "own"}>
          <WeekHours
            text={{ ...text().hours, label: text().hours.own }}
            days={days}
            onChange={(day, hours) => setDays(day, hours)}
          />
        </Show>
      </Form>
    </Sheet>
  );
}
