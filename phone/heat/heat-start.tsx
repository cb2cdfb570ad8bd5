import { For, Show, createMemo, createSignal } from "solid-js";
import { sortedByName } from "#shared/kitchen/model/by-name.ts";
import { REMINDERS, cardFor } from "#shared/heat/cautions.ts";
import { hasReadCaution } from "#shared/kitchen/model/cautions-read.ts";
import { heatToolOf } from "#shared/kitchen/forecast/air.ts";
import type { ToolState, Tray } from "#shared/kitchen/model/state.ts";
import { formatTemp } from "#shared/units.ts";
import { Cautions, HeatTitle, Reminder } from "./cautions.tsx";
import { HotTray } from "./hot-tray.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { ReadFirst } from "./tool-reading.tsx";
import { readWords, toolWords } from "./tool-words.ts";

/** Before the heat: under which tool, and what to mind. */
export function HeatStart(props: { tray: Tray }) {
  const { board, act, units, zone } = usePhone();
  const tools = createMemo(() => sortedByName(board.kitchen().tools));
  const [chosenId, setChosenId] = createSignal<string>();
  const chosen = createMemo(() => {
    const fit = tools().filter((tool) => tool.outOfService === undefined);
    return tools().find((tool) => tool.id === chosenId()) ?? (fit.length === 1 ? fit[0] : undefined);
  });
  const airC = (tool: ToolState): number => heatToolOf(board.kitchen(), tool).airC;
  const hasRead = (tool: ToolState): boolean =>
    hasReadCaution(board.kitchen(), board.me.personId, tool.kind, board.nowMs());
  const start = (tool: ToolState): void => {
    if (!hasRead(tool)) act({ type: "caution-read", toolKind: tool.kind });
    act(
      { type: "start-heat-set", trayId: props.tray.id, toolId: tool.id },
      `Tray ${props.tray.number} heat-set started`,
    );
  };
  return (
    <main>
      <HeatTitle>Heat-set tray {props.tray.number}</HeatTitle>
      <HotTray tray={props.tray} />
      <Show
        when={tools().length > 0}
        fallback={
          <p class="empty">The kitchen has no heat tools yet. A lead adds them under Room → Kitchen.</p>
        }
      >
        <div class="choices" role="group" aria-label="Under which tool">
          <For each={tools()}>
            {(tool) => (
              <button
                type="button"
                aria-pressed={chosen()?.id === tool.id}
                disabled={tool.outOfService !== undefined}
                onClick={() => setChosenId(tool.id)}
              >
                {tool.name}
                <small>
                  set {formatTemp(airC(tool), units())} · {toolWords(board.kitchen(), tool, board.nowMs())}
                  <Show when={readWords(tool, board.nowMs(), units(), zone())}>
                    {(read) => <> · {read()}</>}
                  </Show>
                </small>
              </button>
            )}
          </For>
        </div>
      </Show>
      <Show when={chosen()} keyed>
        {(tool) => (
          <>
            <Show
              when={hasRead(tool)}
              fallback={<Cautions card={cardFor(tool.kind, board.kitchen().settings.houseRules)} />}
            >
              <Reminder line={REMINDERS[tool.kind].before} />
            </Show>
            <Show when={tool.kind !== "hot-air"}>
              <ReadFirst tool={tool} />
            </Show>
            <button type="button" class="act ember" onClick={() => start(tool)}>
              {hasRead(tool) ? "Start the heat" : "Read: start the heat"}
              <small>
                {tool.kind === "hot-air"
                  ? "the first cookie's clock starts"
                  : "the tray's clock starts as the door shuts"}
              </small>
            </button>
          </>
        )}
      </Show>
    </main>
  );
}
