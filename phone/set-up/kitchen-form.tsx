import { For, Show, createSignal } from "solid-js";
import { createStore } from "solid-js/store";
import { INCH_MM, type KitchenUnits } from "#shared/units.ts";
import { USUAL_WASTE_PCT } from "#shared/kitchen/mixing/icing-needed.ts";
import { handsHere } from "#shared/kitchen/model/people.ts";
import { longestOf, rangeOf } from "#shared/fields.ts";
import { Settings } from "#shared/kitchen/model/vocabulary.ts";
import { Choice, TextField } from "#phone/ui/fields.tsx";
import { NumberField, TempField } from "#phone/ui/number-field.tsx";
import { Form, type Fault } from "#phone/ui/form.tsx";
import { changed, mergeChanges } from "#phone/ui/merge.ts";
import { usePhone } from "#phone/app/phone.tsx";

const DAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"] as const;
const ZONES = Intl.supportedValuesOf("timeZone");
const UNITS: readonly { value: KitchenUnits; name: string; hint: string }[] = [
  { value: "metric", name: "Metric", hint: "mm, g, mL, °C" },
  { value: "us", name: "US", hint: "inches, cups, spoons, °F" },
];
/** As the settings' schema has them. */
const RULES_MOST = 12;
const RULE_LETTERS = 140;
const HOUSE_RULES = "House rules for heat, one a line";
/** A wall screen's diagonal is sold in inches everywhere. */
const INCH_CM = INCH_MM / 10;

const DAY_MIN = 1440;
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
/** Midnight, as a day's end, is the end of that day. */
const closingOf = (clock: string): number | undefined => (clock === "00:00" ? DAY_MIN : minutesOf(clock));

type Day = Settings["opening"][number];
/** A day's hours being written: a time may be missing. */
type DayDraft = { fromMin: number | undefined; toMin: number | undefined } | null;
const week = (days: readonly Day[]): Record<string, Day> => Object.fromEntries(Object.entries(days));

/** What is true of the whole kitchen. On the first run the zone is the phone's own. */
export function KitchenForm(props: { isFirst?: boolean; onDone: () => void }) {
  const { board, act } = usePhone();
  const now: Settings = board.kitchen().settings;
  const [name, setName] = createSignal(props.isFirst === true ? "" : now.name);
  const [units, setUnits] = createSignal<KitchenUnits>(now.units);
  const [zone, setZone] = createSignal(
    props.isFirst === true ? Intl.DateTimeFormat().resolvedOptions().timeZone : now.timeZone,
  );
  const [opening, setOpening] = createStore<DayDraft[]>(
    now.opening.map((day) => (day === null ? null : { ...day })),
  );
  const [diagonalIn, setDiagonalIn] = createSignal<number | undefined>(
    Math.round(now.wall.diagonalCm / INCH_CM),
  );
  const [farthestM, setFarthestM] = createSignal<number | undefined>(now.wall.farthestM);
  const [limitC, setLimitC] = createSignal<number | undefined>(now.icingLimitC);
  const [density, setDensity] = createSignal<number | undefined>(now.densityKgM3);
  const [sinkPct, setSinkPct] = createSignal<number | undefined>(now.sinkShare * 100);
  const [flooding, setFlooding] = createSignal<number | undefined>(now.floodingMin);
  const [packing, setPacking] = createSignal<number | undefined>(now.packingMin);
  /** Null: everyone who joined. */
  const [hands, setHands] = createSignal<number | null | undefined>(now.hands ?? null);
  const [waste, setWaste] = createSignal<number | undefined>(now.wastePct ?? USUAL_WASTE_PCT);
  /** Null: the kitchen names none. */
  const [useH, setUseH] = createSignal<number | null | undefined>(now.icingUseH ?? null);
  const [idle, setIdle] = createSignal<number | undefined>(now.toolIdleMin);
  const [water, setWater] = createStore<Record<string, number | undefined>>({ ...now.waterPct });
  const [rules, setRules] = createSignal(now.houseRules.join("\n"));
  const [fault, setFault] = createSignal<Fault>();

  const houseRules = (): string[] =>
    rules()
      .split("\n")
      .map((rule) => rule.trim())
      .filter((rule) => rule !== "");
  const written = () => ({
    name: name(),
    units: units(),
    timeZone: zone(),
    opening: opening.map((day): Day =>
      day === null ? null : { fromMin: day.fromMin ?? 0, toMin: day.toMin ?? DAY_MIN },
    ),
    wall: { diagonalCm: (diagonalIn() ?? 0) * INCH_CM, farthestM: farthestM() ?? 0 },
    icingLimitC: limitC() ?? 0,
    densityKgM3: density() ?? 0,
    sinkShare: (sinkPct() ?? 0) / 100,
    floodingMin: flooding() ?? 0,
    packingMin: packing() ?? 0,
    hands: hands() ?? null,
    toolIdleMin: idle() ?? 0,
    wastePct: waste() ?? 0,
    icingUseH: useH() ?? null,
    waterPct: {
      outline: water["outline"] ?? 0,
      "top-coat": water["top-coat"] ?? 0,
      flood: water["flood"] ?? 0,
      detail: water["detail"] ?? 0,
    },
    houseRules: houseRules(),
  });
  const opened: Settings = written();

  /** What was changed here since the form opened, laid over the settings as they stand; all of them on the first run. */
  function toSend(): Partial<Settings> {
    if (props.isFirst === true) return written();
    const stands = board.kitchen().settings;
    const to = written();
    // Each day's hours are a field of their own.
    const days = mergeChanges(week(stands.opening), week(opened.opening), week(to.opening));
    return changed(stands, { ...mergeChanges(stands, opened, to), opening: Object.values(days) });
  }

  /** What a day's hours lack, in words. */
  function missingTime(day: string, k: number): string | undefined {
    const hours = opening[k];
    if (hours === null || hours === undefined) return undefined;
    if (hours.fromMin !== undefined && hours.toMin !== undefined) return undefined;
    const which = hours.fromMin === undefined ? "opens" : "closes";
    return `${day}, ${which} is missing: give a time, or untick that day if the kitchen is closed.`;
  }

  function save(): void {
    const numbers = {
      "the wall's diagonal": diagonalIn(),
      "the farthest reader": farthestM(),
      "the icing's limit": limitC(),
      "the icing's density": density(),
      "the icing left over": waste(),
      "the hours icing is used within": useH(),
      "the sinking share": sinkPct(),
      "the flooding time": flooding(),
      "the packing time": packing(),
      "how many ice at once": hands(),
      "the idle time": idle(),
      "the water of outline": water["outline"],
      "the water of top-coat": water["top-coat"],
      "the water of flood": water["flood"],
      "the water of detail": water["detail"],
    };
    const missing = Object.entries(numbers).find(([, value]) => value === undefined);
    const noTime = DAYS.map(missingTime).find((words) => words !== undefined);
    if (name().trim() === "")
      return void setFault({ message: "The kitchen's name is missing.", field: "The kitchen's name" });
    if (missing !== undefined)
      return void setFault({ message: `Check ${missing[0]}: it is missing or out of its range.` });
    if (noTime !== undefined) return void setFault({ message: noTime });
    if (houseRules().length > RULES_MOST || houseRules().some((rule) => rule.length > RULE_LETTERS))
      return void setFault({
        message: `House rules must be at most ${RULES_MOST}, each at most ${RULE_LETTERS} letters.`,
        field: HOUSE_RULES,
      });
    setFault(undefined);
    const settings = toSend();
    if (Object.keys(settings).length === 0) return props.onDone();
    if (act({ type: "set-kitchen", settings }, "Kitchen saved")) props.onDone();
  }

  return (
    <Form fault={fault()} save={props.isFirst === true ? "Save and go on" : "Save"} onSave={save}>
      <TextField
        label="The kitchen's name"
        value={name()}
        onInput={setName}
        maxLength={longestOf(Settings.entries.name)}
      />
      <Choice label="Units" value={units()} options={UNITS} onChange={setUnits} />
      <TextField
        label="Time zone"
        value={zone()}
        onInput={setZone}
        list={ZONES}
        maxLength={60}
        hint="Guessed from this phone on the first run."
      />
      <fieldset class="field">
        <legend>Opening hours</legend>
        <For each={DAYS}>
          {(day, k) => (
            <div class="day">
              <label>
                <input
                  type="checkbox"
                  checked={opening[k()] !== null}
                  onChange={(event) =>
                    setOpening(k(), event.currentTarget.checked ? { fromMin: 360, toMin: 1200 } : null)
                  }
                />
                {day}
              </label>
              <Show when={opening[k()]} fallback={<span class="quiet">closed</span>}>
                {(hours) => (
                  <span class="hours">
                    <input
                      type="time"
                      aria-label={`${day}, opens`}
                      aria-invalid={hours().fromMin === undefined}
                      value={clockOf(hours().fromMin)}
                      onChange={(event) =>
                        setOpening(k(), { ...hours(), fromMin: minutesOf(event.currentTarget.value) })
                      }
                    />
                    –
                    <input
                      type="time"
                      aria-label={`${day}, closes`}
                      aria-invalid={hours().toMin === undefined}
                      value={clockOf(hours().toMin)}
                      onChange={(event) =>
                        setOpening(k(), { ...hours(), toMin: closingOf(event.currentTarget.value) })
                      }
                    />
                  </span>
                )}
              </Show>
              <Show when={missingTime(day, k())}>
                {(words) => <small class="field-error">{words()}</small>}
              </Show>
            </div>
          )}
        </For>
        <small>Closing before it opens is closing the next day.</small>
      </fieldset>
      <NumberField
        label="Wall screen, diagonal"
        value={diagonalIn()}
        min={10}
        max={118}
        unit="in"
        hint="Type is sized from this and the next."
        onChange={setDiagonalIn}
      />
      <NumberField
        label="Farthest reader of the wall"
        value={farthestM()}
        {...rangeOf(Settings.entries.wall.entries.farthestM)}
        unit="m"
        onChange={setFarthestM}
      />
      <details>
        <summary>Icing, times and house rules</summary>
        <For each={["outline", "top-coat", "flood", "detail"] as const}>
          {(consistency) => (
            <NumberField
              label={`Water in ${consistency}`}
              value={water[consistency]}
              {...rangeOf(Settings.entries.waterPct.entries[consistency])}
              unit="% of its mass"
              onChange={(pct) => setWater(consistency, pct)}
            />
          )}
        </For>
        <NumberField
          label="Icing's density"
          value={density()}
          {...rangeOf(Settings.entries.densityKgM3)}
          unit="kg/m³"
          onChange={setDensity}
        />
        <NumberField
          label="Icing left in bags and bowls"
          value={waste()}
          {...rangeOf(Settings.entries.wastePct)}
          unit="% of what is laid"
          hint="Added to what is to be mixed."
          onChange={setWaste}
        />
        <NumberField
          label="Icing is used within"
          value={useH() ?? undefined}
          {...rangeOf(Settings.entries.icingUseH)}
          unit="h of mixing"
          optional
          hint="By your kitchen's plan and local codes. Empty: each batch is given its own use-by."
          onChange={(hours, isEmpty) => setUseH(isEmpty ? null : hours)}
        />
        <TempField
          label="Icing never hotter than"
          valueC={limitC()}
          {...rangeOf(Settings.entries.icingLimitC)}
          units={units()}
          onChange={setLimitC}
        />
        <NumberField
          label="Set a sinking section within"
          value={sinkPct()}
          min={5}
          max={90}
          unit="% of its skin time"
          onChange={setSinkPct}
        />
        <NumberField
          label="Flooding one layer of a tray takes"
          value={flooding()}
          {...rangeOf(Settings.entries.floodingMin)}
          unit="min"
          onChange={setFlooding}
        />
        <NumberField
          label="Packing an order takes"
          value={packing()}
          {...rangeOf(Settings.entries.packingMin)}
          unit="min"
          onChange={setPacking}
        />
        <NumberField
          label="How many ice at once"
          value={hands() ?? undefined}
          {...rangeOf(Settings.entries.hands)}
          unit="people"
          optional
          hint={`Pick-ups are estimated from these and the opening hours. Empty: everyone who joined, ${handsHere(board.kitchen()).length} now.`}
          onChange={(people, isEmpty) => setHands(isEmpty ? null : people)}
        />
        <NumberField
          label="A tool left on is told after"
          value={idle()}
          {...rangeOf(Settings.entries.toolIdleMin)}
          unit="min"
          onChange={setIdle}
        />
        <div class="field">
          <label for="house-rules">{HOUSE_RULES}</label>
          <textarea
            id="house-rules"
            rows="4"
            aria-invalid={fault()?.field === HOUSE_RULES}
            value={rules()}
            onInput={(event) => setRules(event.currentTarget.value)}
          />
          <small>
            Shown after the usual cautions, which stay. At most {RULES_MOST}, each {RULE_LETTERS} letters.
          </small>
        </div>
      </details>
    </Form>
  );
}
