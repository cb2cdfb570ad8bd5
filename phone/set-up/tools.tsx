import { Show, createMemo, createSignal } from "solid-js";
import { TOOL_DEFAULTS, boundsFor } from "#shared/heat/tool.ts";
import { asId } from "#shared/ids.ts";
import { heatToolOf } from "#shared/kitchen/forecast/air.ts";
import type { PlaceId, ToolId } from "#shared/ids.ts";
import type { Tool, ToolKind } from "#shared/kitchen/model/vocabulary.ts";
import { formatSpan, formatTemp, isHotterAsRead } from "#shared/units.ts";
import { EditorList } from "#phone/ui/editor-list.tsx";
import { Choice, Select, TextField } from "#phone/ui/fields.tsx";
import { NumberField, TempField } from "#phone/ui/number-field.tsx";
import { Form, type Fault } from "#phone/ui/form.tsx";
import { mergeChanges } from "#phone/ui/merge.ts";
import { usePhone } from "#phone/app/phone.tsx";

const KINDS: readonly { value: ToolKind; name: string }[] = [
  { value: "hot-air", name: "Hot-air tool" },
  { value: "oven", name: "Low oven" },
  { value: "warm-cabinet", name: "Warm cabinet" },
];

/** The kitchen's heat tools and their limits. */
export function ToolsEditor() {
  const { board, units } = usePhone();
  return (
    <EditorList<Tool>
      items={board.kitchen().tools}
      none="No heat tools yet."
      add="Add a heat tool"
      line={(tool) => (
        <span class="words">
          <strong>{tool.name}</strong>
          <span>
            {KINDS.find(({ value }) => value === tool.kind)?.name} ·{" "}
            {formatTemp(heatToolOf(board.kitchen(), tool).airC, units())} · stop by{" "}
            {formatSpan(tool.capS / 60)} at most
          </span>
        </span>
      )}
      form={(tool, done) => <ToolForm tool={tool()} onDone={done} />}
    />
  );
}

function ToolForm(props: { tool: Tool | undefined; onDone: () => void }) {
  const { board, act, newId, units } = usePhone();
  const first = props.tool?.kind ?? "hot-air";
  const [name, setName] = createSignal(props.tool?.name ?? "");
  const [kind, setKind] = createSignal<ToolKind>(first);
  const [nozzleC, setNozzleC] = createSignal<number | undefined>(
    props.tool?.airC ?? TOOL_DEFAULTS["hot-air"].airC,
  );
  const [maxC, setMaxC] = createSignal<number | undefined>(
    props.tool?.maxAirC ?? TOOL_DEFAULTS[first].maxAirC,
  );
  const [capS, setCapS] = createSignal<number | undefined>(props.tool?.capS ?? TOOL_DEFAULTS[first].capS);
  const [coolMin, setCoolMin] = createSignal<number | undefined>(
    props.tool?.coolDownMin ?? TOOL_DEFAULTS[first].coolDownMin,
  );
  const [distanceCm, setDistanceCm] = createSignal<number | undefined>(
    props.tool?.distanceCm ?? TOOL_DEFAULTS["hot-air"].distanceCm,
  );
  const [nozzleMm, setNozzleMm] = createSignal<number | undefined>(
    props.tool?.nozzleMm ?? TOOL_DEFAULTS["hot-air"].nozzleMm,
  );
  const [placeId, setPlaceId] = createSignal<string>(props.tool?.placeId ?? "");
  const [fault, setFault] = createSignal<Fault>();
  const bounds = createMemo(() => boundsFor(kind()));
  const capUnit = (): { name: string; s: number } =>
    kind() === "hot-air" ? { name: "s", s: 1 } : { name: "min", s: 60 };
  const places = createMemo(() =>
    Object.values(board.kitchen().places).filter((place) => place.kind === kind()),
  );
  const place = (): string =>
    places().some(({ id }) => id === placeId()) ? placeId() : (places()[0]?.id ?? "");
  function chooseKind(value: ToolKind): void {
    const usual = TOOL_DEFAULTS[value];
    setKind(value);
    setMaxC(usual.maxAirC);
    setCapS(usual.capS);
    setCoolMin(usual.coolDownMin);
  }
  const id = props.tool?.id ?? asId<ToolId>(newId());
  const isHotAir = (): boolean => kind() === "hot-air";
  /** A chamber's air is its place's. */
  const airC = (): number | undefined => (isHotAir() ? nozzleC() : board.kitchen().places[place()]?.setTempC);
  const written = (): Tool => ({
    id,
    name: name(),
    kind: kind(),
    airC: airC() ?? 0,
    maxAirC: maxC() ?? 0,
    capS: Math.round(capS() ?? 0),
    coolDownMin: coolMin() ?? 0,
    ...(isHotAir()
      ? { distanceCm: distanceCm(), nozzleMm: nozzleMm() }
      : { placeId: asId<PlaceId>(place()) }),
  });
  const opened = written();
  function save(): void {
    const [air, most] = [airC(), maxC()];
    if (name().trim() === "")
      return void setFault({ message: "The tool's name is missing.", field: "Tool's name" });
    if (!isHotAir() && place() === "")
      return void setFault({
        message: `Add the ${kind() === "oven" ? "oven" : "cabinet"} as a place first: trays stand in it.`,
        field: "It is the place",
      });
    if (
      air === undefined ||
      most === undefined ||
      capS() === undefined ||
      coolMin() === undefined ||
      (isHotAir() && (distanceCm() === undefined || nozzleMm() === undefined))
    )
      return void setFault({ message: "Something is missing, or out of its range: see above." });
    if (isHotterAsRead(air, most, units()))
      return void setFault({
        message: `“Never hotter than” must be at least ${formatTemp(air, units())}, the air it is set to.`,
        field: "Never hotter than",
      });
    const tool = props.tool === undefined ? written() : mergeChanges(props.tool, opened, written());
    setFault(undefined);
    if (act({ type: "put-tool", tool }, `${name().trim()} saved`)) props.onDone();
  }
  function remove(): void {
    const { tool } = props;
    if (tool !== undefined && act({ type: "remove-tool", toolId: tool.id }, `${tool.name} removed`))
      props.onDone();
  }
  return (
    <Form
      fault={fault()}
      onSave={save}
      onRemove={props.tool === undefined ? undefined : remove}
      onLeave={() => props.onDone()}
    >
      <TextField label="Tool's name" value={name()} onInput={setName} maxLength={40} />
      <Choice label="Kind" value={kind()} options={KINDS} onChange={chooseKind} />
      <Show when={kind() === "hot-air"}>
        <TempField
          label="Air at the nozzle"
          valueC={nozzleC()}
          min={bounds().airC.min}
          max={bounds().airC.max}
          units={units()}
          onChange={setNozzleC}
        />
      </Show>
      <TempField
        label="Never hotter than"
        valueC={maxC()}
        min={bounds().maxAirC.min}
        max={bounds().maxAirC.max}
        units={units()}
        onChange={setMaxC}
        hint="A reading above this raises an alert."
      />
      <NumberField
        label={kind() === "hot-air" ? "Longest on one cookie" : "Longest for a tray"}
        value={inUnits(capS(), capUnit().s)}
        min={bounds().capS.min / capUnit().s}
        max={bounds().capS.max / capUnit().s}
        unit={capUnit().name}
        onChange={(given) => setCapS(given === undefined ? undefined : given * capUnit().s)}
      />
      <NumberField
        label="Cools down in"
        value={coolMin()}
        min={bounds().coolDownMin.min}
        max={bounds().coolDownMin.max}
        unit="min"
        onChange={setCoolMin}
      />
      <Show
        when={kind() === "hot-air"}
        fallback={
          <Select
            label="It is the place"
            value={place()}
            options={places().map(({ id, name }) => ({ value: id, name }))}
            onChange={setPlaceId}
            hint="Trays under it stand there, at the temperature the place is set to."
          />
        }
      >
        <NumberField
          label="Held off the cookie by"
          value={distanceCm()}
          min={bounds().distanceCm.min}
          max={bounds().distanceCm.max}
          unit="cm"
          onChange={setDistanceCm}
        />
        <NumberField
          label="Nozzle's width"
          value={nozzleMm()}
          min={bounds().nozzleMm.min}
          max={bounds().nozzleMm.max}
          unit="mm"
          onChange={setNozzleMm}
        />
      </Show>
    </Form>
  );
}

const inUnits = (value: number | undefined, unit: number): number | undefined =>
  value === undefined ? undefined : value / unit;
