import { For, Show, createMemo } from "solid-js";
import { aliveTrays, standsAt } from "#shared/kitchen/model/state.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { sayNumbers } from "#shared/words/tray-numbers.ts";
import { FirstAid } from "./cautions.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { Sheet } from "#phone/ui/sheet.tsx";
import { coolingLeftMs, toolWords } from "./tool-words.ts";

/** Numbers of the trays under a tool. */
export const traysUnder = (kitchen: Kitchen, toolId: string): number[] =>
  Object.values(kitchen.trays).flatMap(({ number, standing }) =>
    standing.stage === "heat-set" && standing.heat.toolId === toolId ? [number] : [],
  );

/** Before going home: what is on, under heat, or in hand; and what may be left. */
export function ShiftEnd(props: { onClose: () => void }) {
  const { board, act } = usePhone();
  const tools = createMemo(() =>
    Object.values(board.kitchen().tools).filter(
      (tool) => tool.use.status === "on" || coolingLeftMs(tool, board.nowMs()) > 0,
    ),
  );
  const staged = (stage: "heat-set" | "flooding"): number[] =>
    aliveTrays(board.kitchen()).flatMap((tray) => (tray.standing.stage === stage ? [tray.number] : []));
  const drying = (): number[] =>
    aliveTrays(board.kitchen()).flatMap((tray) =>
      (tray.standing.stage === "crusting" || tray.standing.stage === "full-dry") &&
      board.kitchen().places[standsAt(tray).placeId]?.setTempC === undefined
        ? [tray.number]
        : [],
    );
  const isClear = (): boolean => tools().length + staged("heat-set").length + staged("flooding").length === 0;
  return (
    <Sheet title="Before you go" onClose={props.onClose}>
      <Show when={isClear()}>
        <p class="sheet-message">
          As tapped here, every tool is off and cooled, and no tray is under heat or half flooded. Look at the
          tools anyway.
        </p>
      </Show>
      <For each={tools()}>
        {(tool) => (
          <div class="check-line">
            <span class="words">
              <strong>{tool.name}</strong>
              <span>{toolWords(board.kitchen(), tool, board.nowMs())}</span>
            </span>
            <Show when={tool.use.status === "on"}>
              <button type="button" class="small" onClick={() => act({ type: "tool-off", toolId: tool.id })}>
                It is off
              </button>
            </Show>
          </div>
        )}
      </For>
      <Show when={staged("heat-set").length > 0}>
        <p class="sheet-message">
          <strong>Under heat: {sayNumbers(staged("heat-set"))}.</strong> Stop these first.
        </p>
      </Show>
      <Show when={staged("flooding").length > 0}>
        <p class="sheet-message">
          <strong>In hand: {sayNumbers(staged("flooding"))}.</strong> Start their drying clocks, or give them
          over.
        </p>
      </Show>
      <Show when={drying().length > 0}>
        <p class="note">
          Drying, with no heat on them: {sayNumbers(drying())}. Whether their icing and filling may stand out
          overnight is for your kitchen's own plan.
        </p>
      </Show>
      <button type="button" class="plain" onClick={() => props.onClose()}>
        Close
      </button>
      <FirstAid />
    </Sheet>
  );
}
