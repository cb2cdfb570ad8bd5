import { For, Show } from "solid-js";
import { USUAL_DAY } from "#shared/kitchen/model/settings.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { createFault } from "./form.tsx";

/** A day's hours being written, in minutes after midnight: a time that was cleared is not there. Null on a closed day. */
export type DayDraft = { fromMin?: number | undefined; toMin?: number | undefined } | null;

const DAY_MIN = 1440;

/** What is said about hours: a kitchen's, or a person's. */
export interface HoursWords {
  label: string;
  hint?: string;
  /** On a day without. */
  none: string;
  from: (day: string) => string;
  until: (day: string) => string;
  missing: (field: string) => string;
}

/** Hours of a week, Monday first. */
export function WeekHours(props: {
  text: HoursWords;
  days: Readonly<Record<number, DayDraft | undefined>>;
  onChange: (index: number, day: DayDraft) => void;
}) {
  const { words } = usePhone();
  return (
    <fieldset class="field">
      <legend>{props.text.label}</legend>
      <For each={[0, 1, 2, 3, 4, 5, 6]}>
        {(index) => (
          <Day
            text={props.text}
            name={words().format.sentence(words().format.weekday(index))}
            hours={props.days[index] ?? null}
            onChange={(hours) => props.onChange(index, hours)}
          />
        )}
      </For>
      <Show when={props.text.hint}>{(hint) => <small>{hint()}</small>}</Show>
    </fieldset>
  );
}

function Day(props: {
  text: HoursWords;
  name: string;
  hours: DayDraft;
  onChange: (hours: DayDraft) => void;
}) {
  const missing = createFault(
    () => props.name,
    () => {
      const { hours, name, text } = props;
      if (hours === null) return undefined;
      if (hours.fromMin === undefined) return text.missing(text.from(name));
      return hours.toMin === undefined ? text.missing(text.until(name)) : undefined;
    },
  );
  return (
    <div class="day">
      <label>
        <input
          type="checkbox"
          checked={props.hours !== null}
          onChange={(event) => props.onChange(event.currentTarget.checked ? { ...USUAL_DAY } : null)}
        />
        {props.name}
      </label>
      <Show when={props.hours} fallback={<span class="quiet">{props.text.none}</span>}>
        {(hours) => (
          <span class="hours">
            <Time
              label={props.text.from(props.name)}
              minutes={hours().fromMin}
              onChange={(fromMin) => props.onChange({ ...hours(), fromMin })}
            />
            –
            <Time
              label={props.text.until(props.name)}
              minutes={hours().toMin}
              // Midnight, as a day's end, is the end of that day.
              onChange={(toMin) => props.onChange({ ...hours(), toMin: toMin === 0 ? DAY_MIN : toMin })}
            />
          </span>
        )}
      </Show>
      <Show when={missing()}>
        {(fault) => (
          <small class="field-error" role="alert">
            {fault()}
          </small>
        )}
      </Show>
    </div>
  );
}

function Time(props: {
  label: string;
  minutes: number | undefined;
  onChange: (minutes: number | undefined) => void;
}) {
  return (
    <input
      type="time"
      aria-label={props.label}
      aria-invalid={props.minutes === undefined}
      value={clockOf(props.minutes)}
      onChange={(event) => props.onChange(minutesOf(event.currentTarget.value))}
    />
  );
}

/** "09:30" as an input wants it; empty of what is not there. */
const clockOf = (minutes: number | undefined): string =>
  minutes === undefined
    ? ""
    : `${String(Math.floor(minutes / 60) % 24).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;

/** Undefined where the field was cleared. */
function minutesOf(clock: string): number | undefined {
  if (!/^\d\d:\d\d/.test(clock)) return undefined;
  const [hours, minutes] = clock.split(":").map(Number);
  return (hours ?? 0) * 60 + (minutes ?? 0);
}
