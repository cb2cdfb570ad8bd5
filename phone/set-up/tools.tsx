import { For, Show, createMemo, createSignal } from "solid-js";
import { TOOL_DEFAULTS, boundsFor } from "#shared/heat/tool.ts";
import { asId, type PlaceId, type ToolId } from "#shared/ids.ts";
import { heatToolOf } from "#shared/kitchen/forecast/air.ts";
import { Tool, type ToolKind } from "#shared/kitchen/model/vocabulary.ts";
import { isHotterAsRead } from "#shared/units.ts";
import type { ToolFigure } from "#shared/words/en/set-up.ts";
import { createDraft } from "#phone/ui/draft.ts";
import { EditorList } from "#phone/ui/editor-list.tsx";
import { Select, TextField } from "#phone/ui/fields.tsx";
import { Choice } from "#phone/ui/plain-field.tsx";
import { inUnitsOf, QuantityField } from "#phone/ui/number-field.tsx";
import { Form, type Fault } from "#phone/ui/form.tsx";
import { usePhone } from "#phone/app/phone.tsx";

/** What a lead enters of a tool. A chamber's air is its place's. */
const FIGURES: Readonly<Record<ToolKind, readonly ToolFigure[]>> = {
  "hot-air": ["airC", "maxAirC", "capS", "coolDownMin", "distanceCm", "nozzleMm"],
  oven: ["maxAirC", "capS", "coolDownMin"],
  "warm-cabinet": ["maxAirC", "capS", "coolDownMin"],
};
const usualOf = (kind: ToolKind) => {
  const { airC, maxAirC, capS, coolDownMin, distanceCm, nozzleMm } = TOOL_DEFAULTS[kind];
  return { airC, maxAirC, capS, coolDownMin, distanceCm, nozzleMm };
};
const MINUTES = inUnitsOf(60);

/** The kitchen's heat tools and their limits. */
export function ToolsEditor() {
  const { board, words } = usePhone();
  const text = () => words().setUp.tool;
  return (
    <EditorList<Tool>
      items={board.kitchen().tools}
      none={text().none}
      add={text().add}
      line={(tool) => (
        <span class="words">
          <strong>{tool.name}</strong>
          <span>
            {text().line(text().kinds[tool.kind], heatToolOf(board.kitchen(), tool).airC, tool.capS / 60)}
          </span>
        </span>
      )}
      form={(tool, done) => <ToolForm tool={tool()} onDone={done} />}
    />
  );
}

function ToolForm(props: { tool: Tool | undefined; onDone: () => void }) {
  const { board, act, newId, words, units } = usePhone();
  const text = () => words().setUp.tool;
  const opened: Tool = {
    id: asId<ToolId>(newId()),
    name: "",
    kind: "hot-air",
    ...usualOf(props.tool?.kind ?? "hot-air"),
    ...props.tool,
  };
  const { draft, set, changesOn } = createDraft(opened);
  const [fault, setFault] = createSignal<Fault>();
  const kind = (): ToolKind => draft.kind ?? "hot-air";
  const places = createMemo(() =>
    Object.values(board.kitchen().places).filter((place) => place.kind === kind()),
  );
  /** The chamber it is; none of hot air. */
  const place = () => places().find(({ id }) => id === draft.placeId) ?? places()[0];
  function chooseKind(next: ToolKind): void {
    set({ ...usualOf(next), kind: next });
  }
  function save(): void {
    const isHotAir = kind() === "hot-air";
    if (!isHotAir && place() === undefined)
      return void setFault({ message: text().addPlaceFirst(kind()), field: text().place });
    const airC = (isHotAir ? undefined : place()?.setTempC) ?? draft.airC ?? 0;
    if (isHotterAsRead(airC, draft.maxAirC ?? 0, units()))
      return void setFault({
        message: text().limitUnderAir(airC),
        field: text().figures(kind()).maxAirC.label,
      });
    setFault(undefined);
    set({ airC, capS: Math.round(draft.capS ?? 0), placeId: place()?.id });
    const tool = changesOn(props.tool);
    if (act({ type: "put-tool", tool }, words().forms.saved(tool.name.trim()))) props.onDone();
  }
  function remove(): void {
    const { id, name } = opened;
    if (act({ type: "remove-tool", toolId: id }, words().forms.removed(name))) props.onDone();
  }
  return (
    <Form
      fault={fault()}
      onSave={save}
      onRemove={props.tool === undefined ? undefined : remove}
      onLeave={() => props.onDone()}
    >
      <TextField
        label={text().name}
        value={draft.name ?? ""}
        schema={Tool.entries.name}
        onInput={(name) => set("name", name)}
      />
      <Choice
        label={words().setUp.kind}
        value={kind()}
        options={Tool.entries.kind.options.map((value) => ({ value, name: text().kinds[value] }))}
        onChange={chooseKind}
      />
      <For each={FIGURES[kind()]}>
        {(field) => (
          <QuantityField
            {...boundsFor(kind())[field]}
            {...text().figures(kind())[field]}
            {...(field === "capS" && kind() !== "hot-air" ? { unit: "min", conversion: MINUTES } : {})}
            value={draft[field]}
            onChange={(value) => set(field, value)}
          />
        )}
      </For>
      <Show when={kind() !== "hot-air"}>
        <Select
          label={text().place}
          value={place()?.id ?? ""}
          options={places().map(({ id, name }) => ({ value: id, name }))}
          onChange={(id) => set("placeId", asId<PlaceId>(id))}
          hint={text().placeHint}
        />
      </Show>
    </Form>
  );
}
