import { Show, createSignal } from "solid-js";
import type { ToolState } from "#shared/kitchen/model/state.ts";
import { TempField } from "#phone/ui/number-field.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { Sheet } from "#phone/ui/sheet.tsx";

/** A tool's temperature, typed in. */
export function ToolReading(props: { tool: ToolState; onRead: () => void }) {
  const { act, words, units } = usePhone();
  const [tempC, setTempC] = createSignal<number>();
  const enter = (): void => {
    const read = tempC();
    if (read === undefined) return;
    const input = { type: "read-tool-temperature", toolId: props.tool.id, tempC: read } as const;
    if (act(input, words().heat.wasRead(props.tool.name))) props.onRead();
  };
  return (
    <>
      <TempField
        label={words().heat.itsTemperature}
        valueC={tempC()}
        min={-5}
        max={props.tool.kind === "hot-air" ? 600 : 300}
        units={units()}
        onChange={setTempC}
      />
      <button type="button" class="act" disabled={tempC() === undefined} onClick={enter}>
        {words().heat.enter}
      </button>
    </>
  );
}

/** The reading a chamber is to have before a tray goes in, one tap away from where that is asked. */
export function ReadFirst(props: { tool: ToolState }) {
  const { words } = usePhone();
  const [isReading, setReading] = createSignal(false);
  return (
    <>
      <button type="button" class="plain wide" onClick={() => setReading(true)}>
        {words().heat.enterTemperature}
      </button>
      <Show when={isReading()}>
        <Sheet title={words().heat.asRead(props.tool.name)} onClose={() => setReading(false)}>
          <ToolReading tool={props.tool} onRead={() => setReading(false)} />
          <button type="button" class="plain" onClick={() => setReading(false)}>
            {words().forms.cancel}
          </button>
        </Sheet>
      </Show>
    </>
  );
}
