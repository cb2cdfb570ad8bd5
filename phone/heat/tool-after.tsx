import { REMINDERS } from "#shared/heat/cautions.ts";
import type { ToolState } from "#shared/kitchen/model/state.ts";
import { FirstAid, Reminder } from "./cautions.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { createTapGuard } from "#shared/client/screen/tap-guard.ts";
import { Sheet } from "#phone/ui/sheet.tsx";

/** After a heat-set: is the tool off, or wanted again? */
export function ToolAfter(props: { tool: ToolState; onDone: () => void }) {
  const { act, words, timer } = usePhone();
  // It opens under the thumb that stopped the heat.
  const settled = createTapGuard(timer);
  const heat = () => words().heat;
  return (
    <Sheet title={heat().offNow(props.tool.name)} onClose={props.onDone} isSettled={settled()}>
      <Reminder line={REMINDERS[props.tool.kind].after} />
      <button
        type="button"
        class="act"
        aria-disabled={!settled()}
        onClick={() => {
          if (!settled()) return;
          act({ type: "tool-off", toolId: props.tool.id }, heat().off(props.tool.name));
          props.onDone();
        }}
      >
        {heat().isOff(props.tool.kind)}
        <small>{heat().offHint}</small>
      </button>
      <button
        type="button"
        class="plain wide"
        aria-disabled={!settled()}
        onClick={() => {
          if (!settled()) return;
          act({ type: "tool-still-in-use", toolId: props.tool.id });
          props.onDone();
        }}
      >
        {heat().stillInUse}
      </button>
      <FirstAid />
    </Sheet>
  );
}
