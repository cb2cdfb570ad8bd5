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
import { Choice, TextField } from "#phone/ui/fields.tsx";
import { createFault, Form } from "#phone/ui/form.tsx";
import { changed } from "#phone/ui/merge.ts";
import { QuantityField, TempField, type TypedUnit, unitOf } from "#phone/ui/number-field.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { OpeningHours } from "./opening-hours.tsx";

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

  function NumberSetting(figureProps: { figure: Figure }) {
    const { path, range, isOptional } = figureProps.figure;
    const [name, part] = path.split(".") as [keyof Settings, string?];
    const value = (): number | undefined => {
      const kept: unknown = draft[name];
      return ((part === undefined ? kept : (kept as Record<string, number>)[part]) ?? undefined) as
        | number
        | undefined;
    };
    const setAt = set as (...pathAndValue: unknown[]) => void;
    const change = (kept: number | undefined, isEmpty: boolean): void =>
      setAt(...path.split("."), isOptional && isEmpty ? null : kept);
    const field = () => fields()[path];
    const typed = TYPED[path];
    if (range.unit === "°C")
      return <TempField {...range} {...field()} units={draft.units} valueC={value()} onChange={change} />;
    return (
      <QuantityField
        {...range}
        label={field().label}
        hint={field().hint}
        value={value()}
        typed={{
          ...(typed ?? unitOf(range.unit ?? "", 1)),
          unit: field().unit ?? typed?.unit ?? range.unit ?? "",
        }}
        optional={isOptional}
        onChange={change}
      />
    );
  }

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
      <OpeningHours
        days={draft.opening ?? {}}
        onChange={(index, day) => set("opening", index, day as Settings["opening"][number])}
      />
      <For each={WALL}>{(figure) => <NumberSetting figure={figure} />}</For>
      <details>
        <summary>{text().moreSettings}</summary>
        <For each={OTHERS}>{(figure) => <NumberSetting figure={figure} />}</For>
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

/** What is not typed in the unit it is kept in. A screen's diagonal is sold in inches everywhere. */
const TYPED: Partial<Record<FigurePath, TypedUnit>> = {
  "wall.diagonalCm": unitOf("in", INCH_MM / 10, 0),
  sinkShare: { unit: "%", digits: 4, out: (share) => share * 100, in: (pct) => pct / 100 },
};

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
