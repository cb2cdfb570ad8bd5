import { For, Show, createMemo } from "solid-js";
import { aliveTrays, standsAt } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { sayNumbers } from "#shared/words/tray-numbers.ts";
import { FirstAid } from "./cautions.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { Sheet } from "#phone/ui/sheet.tsx";
import { toolFact, toolsToCheck } from "./tool-words.ts";

/** Numbers of the trays under a tool. */
export const traysUnder = (kitchen: Kitchen, toolId: string): number[] =>
  Object.values(kitchen.trays).flatMap(({ number, status }) =>
    status.stage === "heat-set" && status.heat.toolId === toolId ? [number] : [],
  );

/** Before going home: what is on, under heat, or in hand; and what may be left. */
export function ShiftEnd(props: { onClose: () => void }) {
  const { board, words, act } = usePhone();
  const heat = () => words().heat;
  const tools = createMemo(() => toolsToCheck(board.kitchen(), board.nowMs()));
  const staged = (stage: "heat-set" | "flooding"): number[] =>
    aliveTrays(board.kitchen()).flatMap((tray) => (tray.status.stage === stage ? [tray.number] : []));
  const drying = (): number[] =>
    aliveTrays(board.kitchen()).flatMap((tray) =>
      (tray.status.stage === "crusting" || tray.status.stage === "full-dry") &&
      board.kitchen().places[standsAt(tray).placeId]?.setTempC === undefined
        ? [tray.number]
        : [],
    );
  const isClear = (): boolean => tools().length + staged("heat-set").length + staged("flooding").length === 0;
  return (
    <Sheet title={heat().beforeYouGo} onClose={props.onClose}>
      <Show when={isClear()}>
        <p class="sheet-message">{heat().allClear}</p>
      </Show>
      <For each={tools()}>
        {(tool) => (
          <div class="check-line">
            <span class="words">
              <strong>{tool.name}</strong>
              <span>{heat().tool(toolFact(board.kitchen(), tool, board.nowMs()))}</span>
            </span>
            <Show when={tool.use.status === "on"}>
              <button type="button" class="small" onClick={() => act({ type: "tool-off", toolId: tool.id })}>
                {heat().itIsOff}
              </button>
            </Show>
          </div>
        )}
      </For>
      <Show when={staged("heat-set").length > 0}>
        <p class="sheet-message">
          <strong>{heat().underHeat(sayNumbers(staged("heat-set")))}</strong> {heat().stopTheseFirst}
        </p>
      </Show>
      <Show when={staged("flooding").length > 0}>
        <p class="sheet-message">
          <strong>{heat().inHand(sayNumbers(staged("flooding")))}</strong> {heat().startClocks}
        </p>
      </Show>
      <Show when={drying().length > 0}>
        <p class="note">{heat().dryingOvernight(sayNumbers(drying()))}</p>
      </Show>
      <a class="plain" href="#/kitchen/hand-over">
        {words().app.titles["hand-over"]}
      </a>
      <button type="button" class="plain" onClick={() => props.onClose()}>
        {words().forms.close}
      </button>
      <FirstAid />
    </Sheet>
  );
}
