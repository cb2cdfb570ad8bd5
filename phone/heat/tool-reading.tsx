import { Show, createSignal } from "solid-js";
import type { ToolState } from "#shared/kitchen/model/state.ts";
import { TempField } from "#phone/ui/number-field.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { Sheet } from "#phone/ui/sheet.tsx";

/** A tool's temperature, typed in. */
export function ToolReading(props: { tool: ToolState; onRead: () => void }) {
  const { act, units } = usePhone();
  const [tempC, setTempC] = createSignal<number>();
  const enter = (): void => {
    const read = tempC();
    if (read === undefined) return;
    const wish = { type: "read-tool-temperature", toolId: props.tool.id, tempC: read } as const;
    if (act(wish, `${props.tool.name} read`)) props.onRead();
  };
  return (
    <>
      <TempField
        label="Its temperature"
        valueC={tempC()}
        min={-5}
        max={props.tool.kind === "hot-air" ? 600 : 300}
        units={units()}
        onChange={setTempC}
      />
      <button type="button" class="act" disabled={tempC() === undefined} onClick={enter}>
        Enter
      </button>
    </>
  );
}

/** The reading a chamber is to have before a tray goes in, one tap away from where that is asked. */
export function ReadFirst(props: { tool: ToolState }) {
  const [isReading, setReading] = createSignal(false);
  return (
    <>
      <button type="button" class="plain wide" onClick={() => setReading(true)}>
        Enter its temperature
      </button>
      <Show when={isReading()}>
        <Sheet title={`${props.tool.name}, as read`} onClose={() => setReading(false)}>
          <ToolReading tool={props.tool} onRead={() => setReading(false)} />
          <button type="button" class="plain" onClick={() => setReading(false)}>
            Leave it
          </button>
        </Sheet>
      </Show>
    </>
  );
}
