import { For, createUniqueId } from "solid-js";
import { longestOf, parse } from "#shared/fields.ts";
import { handsHere } from "#shared/kitchen/model/people.ts";
import {
  type Figure,
  FIGURES,
  type FigurePath,
  type Settings,
  SETTINGS,
  USUAL_SETTINGS,
} from "#shared/kitchen/model/settings.ts";
import { INCH_MM } from "#shared/units.ts";
import { createDraft } from "#phone/ui/draft.ts";
import { TextField } from "#phone/ui/fields.tsx";
import { Choice } from "#phone/ui/plain-field.tsx";
import { createFault, Form } from "#phone/ui/form.tsx";
import { changed } from "#phone/ui/merge.ts";
import { WeekHours } from "#phone/ui/week-hours.tsx";
import { type Conversion, inUnitsOf, QuantityField } from "#phone/ui/number-field.tsx";
import { usePhone } from "#phone/app/phone.tsx";

/** The settings with each day's hours as a field of their own, for two leads to change different days. */
const asDays = (settings: Settings) => ({
  ...settings,
  opening: Object.fromEntries(settings.opening.entries()) as Record<number, Settings["opening"][number]>,
});

/** What is true of the whole kitchen. On the first run the zone is the phone's own. */
export function KitchenForm(props: { isFirst?: boolean; onDone: () => void }) {
  const { board, act, words } = usePhone();
  const isFirst = props.isFirst === true;
  // Kitchens older than a setting lack it.
  const opened = asDays({ ...USUAL_SETTINGS, ...board.kitchen().settings });
  const { timeZone } = Intl.DateTimeFormat().resolvedOptions();
  const { draft, set, changesOn } = createDraft(opened, isFirst ? { ...opened, name: "", timeZone } : opened);
  const text = () => words().setUp;
  const fields = () => text().settings(handsHere(board.kitchen()).length);

  function save(): void {
    const stands = board.kitchen().settings;
    const wanted = changesOn(asDays(stands));
    const settings = changed(stands, { ...wanted, opening: Object.values(wanted.opening) });
    if (!isFirst && Object.keys(settings).length === 0) return props.onDone();
    if (act({ type: "set-kitchen", settings }, text().kitchenSaved)) props.onDone();
  }

  const Numbers = (group: { figures: readonly Figure[] }) => (
    <For each={group.figures}>
      {({ path, range, isOptional }) => (
        <QuantityField
          {...range}
          {...fields()[path]}
          units={draft.units}
          conversion={CONVERSIONS[path]}
          value={figureAt(draft, path)}
          optional={isOptional}
          onChange={(value, isEmpty) => setAt(set, path, isOptional && isEmpty ? null : value)}
        />
      )}
    </For>
  );
  return (
    <Form save={isFirst ? text().saveAndGoOn : undefined} onSave={save}>
      <TextField
        {...fields().name}
        value={draft.name ?? ""}
        schema={SETTINGS.name.schema}
        onInput={(name) => set("name", name)}
      />
      <Choice
        label={fields().units.label}
        value={draft.units ?? "metric"}
        options={SETTINGS.units.schema.options.map((value) => ({ value, ...text().unitSystems[value] }))}
        onChange={(units) => set("units", units)}
      />
      <TextField
        {...fields().timeZone}
        value={draft.timeZone ?? ""}
        schema={SETTINGS.timeZone.schema}
        list={ZONES}
        onInput={(zone) => set("timeZone", zone)}
      />
      <WeekHours
        text={{ ...fields().opening, ...text().opening }}
        days={draft.opening ?? {}}
        onChange={(index, day) => set("opening", index, day as Settings["opening"][number])}
      />
      <Numbers figures={WALL} />
      <details>
        <summary>{text().moreSettings}</summary>
        <Numbers figures={OTHERS} />
        <TextField
          {...fields().labelText}
          value={draft.labelText ?? ""}
          schema={SETTINGS.labelText.schema}
          onInput={(text) => set("labelText", text === "" ? null : text)}
        />
        <HouseRules
          label={fields().houseRules.label}
          rules={draft.houseRules ?? []}
          onChange={(rules) => set("houseRules", rules)}
        />
      </details>
    </Form>
  );
}

const ZONES = Intl.supportedValuesOf("timeZone");
const isOfWall = ({ path }: Figure): boolean => path.startsWith("wall.");
const WALL = FIGURES.filter(isOfWall);
const OTHERS = FIGURES.filter((figure) => !isOfWall(figure));

/** What is not typed in the unit it is kept in: a screen's diagonal, sold in inches everywhere, and a share. */
const CONVERSIONS: Partial<Record<FigurePath, Conversion>> = {
  "wall.diagonalCm": inUnitsOf(INCH_MM / 10, 0),
  sinkShare: { digits: 4, out: (share) => share * 100, in: (pct) => pct / 100 },
};

/** The number at a path; undefined where there is none. */
function figureAt(draft: object, path: FigurePath): number | undefined {
  const found = path
    .split(".")
    .reduce<unknown>((part, key) => (part as Record<string, unknown> | undefined)?.[key], draft);
  return typeof found === "number" ? found : undefined;
}

const setAt = (set: unknown, path: FigurePath, value: number | null | undefined): void =>
  (set as (...pathAndValue: unknown[]) => void)(...path.split("."), value);

function HouseRules(props: { label: string; rules: readonly string[]; onChange: (rules: string[]) => void }) {
  const { words } = usePhone();
  const id = createUniqueId();
  const { schema } = SETTINGS.houseRules;
  const most = [longestOf(schema), longestOf(schema.item)] as const;
  const fault = createFault(
    () => props.label,
    () => (parse(schema, props.rules).ok ? undefined : words().setUp.houseRules.tooMany(...most)),
  );
  const opened = props.rules.join("\n");
  return (
    <div class="field">
      <label for={id}>{props.label}</label>
      <textarea
        id={id}
        rows="4"
        aria-invalid={fault() !== undefined}
        value={opened}
        onInput={(event) => props.onChange(linesOf(event.currentTarget.value))}
      />
      <small classList={{ "field-error": fault() !== undefined }}>
        {fault() ?? words().setUp.houseRules.hint(...most)}
      </small>
    </div>
  );
}

/** The lines of a text that hold anything. */
const linesOf = (text: string): string[] =>
  text
    .split("\n")
    .map((line) => line.trim())
    .filter((line) => line !== "");
