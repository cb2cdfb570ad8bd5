import { For, type JSX, Show, batch, createSignal } from "solid-js";
import { USUAL_DAY } from "#shared/kitchen/model/settings.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { createFault, useForm } from "./form.tsx";
import { shows } from "./input-value.ts";

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

const DAYS = [0, 1, 2, 3, 4, 5, 6];

/** Hours of a week, Monday first: in one row while every day that has any has the same, else a row a day. */
export function WeekHours(props: {
  text: HoursWords;
  days: Readonly<Record<number, DayDraft | undefined>>;
  onChange: (index: number, day: DayDraft) => void;
}) {
  const { words } = usePhone();
  const open = () => DAYS.filter((index) => (props.days[index] ?? null) !== null);
  const first = (): DayDraft => props.days[open()[0] ?? 0] ?? null;
  const areSame = (): boolean =>
    open().length > 0 &&
    open().every((index) => {
      const [one, other] = [props.days[index], first()];
      return one?.fromMin === other?.fromMin && one?.toMin === other?.toMin;
    });
  const [isOneRow, setOneRow] = createSignal(areSame());
  const isFolded = (): boolean => isOneRow() && areSame();
  // All at once: while they differ each has a row of its own.
  const setOpenDays = (hours: DayDraft): void =>
    batch(() => {
      for (const index of open()) props.onChange(index, hours === null ? null : { ...hours });
    });
  const nameOf = (index: number): string => words().format.sentence(words().format.weekday(index));
  return (
    <fieldset class="field">
      <legend>{props.text.label}</legend>
      <label class="tick">
        <input
          type="checkbox"
          checked={isFolded()}
          disabled={open().length === 0}
          onChange={(event) => {
            if (event.currentTarget.checked) setOpenDays(first());
            setOneRow(event.currentTarget.checked);
          }}
        />
        {words().desk.hours.same}
      </label>
      <Show
        when={isFolded()}
        fallback={
          <For each={DAYS}>
            {(index) => (
              <Day
                text={props.text}
                name={nameOf(index)}
                hours={props.days[index] ?? null}
                onChange={(hours) => props.onChange(index, hours)}
              />
            )}
          </For>
        }
      >
        <Hours text={props.text} name={words().desk.hours.everyDay} hours={first()} onChange={setOpenDays} />
        <div class="week-days">
          <For each={DAYS}>
            {(index) => (
              <label>
                <input
                  type="checkbox"
                  aria-label={nameOf(index)}
                  checked={(props.days[index] ?? null) !== null}
                  onChange={(event) =>
                    props.onChange(index, event.currentTarget.checked ? { ...(first() ?? USUAL_DAY) } : null)
                  }
                />
                <span aria-hidden="true">{nameOf(index).slice(0, 3)}</span>
              </label>
            )}
          </For>
        </div>
      </Show>
      <Show when={props.text.hint}>{(hint) => <small>{hint()}</small>}</Show>
    </fieldset>
  );
}

interface DayProps {
  text: HoursWords;
  name: string;
  hours: DayDraft;
  onChange: (hours: DayDraft) => void;
}

function Day(props: DayProps) {
  return (
    <Hours {...props}>
      <label>
        <input
          type="checkbox"
          checked={props.hours !== null}
          onChange={(event) => props.onChange(event.currentTarget.checked ? { ...USUAL_DAY } : null)}
        />
        {props.name}
      </label>
    </Hours>
  );
}

/** From and until, with what is missing of them. */
function Hours(props: DayProps & { children?: JSX.Element }) {
  const form = useForm();
  const [isLeft, setLeft] = createSignal(false);
  const missing = createFault(
    () => props.name,
    () => {
      const { hours, name, text } = props;
      // A time that is half typed is not there yet.
      if (hours === null || !(isLeft() || form.isTried())) return undefined;
      if (hours.fromMin === undefined) return text.missing(text.from(name));
      return hours.toMin === undefined ? text.missing(text.until(name)) : undefined;
    },
  );
  return (
    <div class="day">
      {props.children}
      <Show when={props.hours} fallback={<span class="quiet">{props.text.none}</span>}>
        {(hours) => (
          <span class="hours" onFocusOut={() => setLeft(true)}>
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
      ref={shows(() => clockOf(props.minutes))}
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
