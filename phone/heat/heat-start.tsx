import { For, Show, createMemo, createSignal, untrack } from "solid-js";
import { sortedByName } from "#shared/collections.ts";
import { REMINDERS } from "#shared/heat/cautions.ts";
import { hasReadCaution } from "#shared/kitchen/model/cautions-read.ts";
import { heatToolOf } from "#shared/kitchen/forecast/air.ts";
import { heatLimitsOf, layerToSet } from "#shared/kitchen/forecast/heat-limits.ts";
import type { ToolState, Tray } from "#shared/kitchen/model/state.ts";
import { lacksWakeLock } from "#shared/client/screen/wake-lock.ts";
import { Cautions, HeatTitle, Reminder } from "./cautions.tsx";
import { HotTray } from "./hot-tray.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { ReadFirst } from "./tool-reading.tsx";
import { readingOf, toolFact } from "./tool-words.ts";

/** Before the heat: under which tool, and what to mind. */
export function HeatStart(props: { tray: Tray }) {
  const { board, words, act } = usePhone();
  const tools = createMemo(() => sortedByName(board.kitchen().tools));
  const [chosenId, setChosenId] = createSignal<string>();
  const chosen = createMemo(() => {
    const fit = tools().filter((tool) => tool.outOfService === undefined);
    return tools().find((tool) => tool.id === chosenId()) ?? (fit.length === 1 ? fit[0] : undefined);
  });
  /** What is told before it starts; as of when the tool was chosen, since it takes solving the drying equations. */
  const limits = createMemo(() => {
    const [tool, layer] = [chosen(), layerToSet(props.tray)];
    if (tool === undefined || layer === undefined) return undefined;
    return untrack(() =>
      heatLimitsOf(board.kitchen(), board.forecasts(), props.tray, tool, layer, board.nowMs()),
    );
  });
  const airC = (tool: ToolState): number => heatToolOf(board.kitchen(), tool).airC;
  const hasRead = (tool: ToolState): boolean =>
    hasReadCaution(board.kitchen(), board.me.personId, tool.kind, board.nowMs());
  const start = (tool: ToolState): void => {
    if (!hasRead(tool)) act({ type: "caution-read", toolKind: tool.kind });
    act(
      { type: "start-heat-set", trayId: props.tray.id, toolId: tool.id },
      words().heat.started(props.tray.number),
    );
  };
  return (
    <main>
      <HeatTitle>{words().heat.of(props.tray.number)}</HeatTitle>
      <HotTray tray={props.tray} />
      <Show when={tools().length > 0} fallback={<p class="empty">{words().heat.noToolsYet}</p>}>
        <div class="choices" role="group" aria-label={words().heat.underWhich}>
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
                  {words().heat.set(airC(tool))} ·{" "}
                  {words().heat.tool(toolFact(board.kitchen(), tool, board.nowMs()))}
                  <Show when={readingOf(tool, board.nowMs())}>
                    {(read) => <> · {words().heat.read(read().tempC, read().atMs)}</>}
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
              fallback={<Cautions card={tool.kind} houseRules={board.kitchen().settings.houseRules} />}
            >
              <Reminder line={REMINDERS[tool.kind].before} />
            </Show>
            <Show when={tool.kind !== "hot-air"}>
              <ReadFirst tool={tool} />
            </Show>
            <Show when={limits()}>
              {(limits) => (
                <p class="reminder heat-limits">
                  <strong>
                    {words().format.sentence(words().heat.touch(tool.kind, limits()))},{" "}
                    {words().heat.stopBy(limits().stopByS)}.
                  </strong>{" "}
                  <Show when={limits().heldTooLongS}>
                    {(heldS) => <strong>{words().heat.heldStill(heldS())}</strong>}
                  </Show>{" "}
                  <Show when={limits().hint}>{(hint) => <span>{words().heat.hints[hint()]}</span>}</Show>
                </p>
              )}
            </Show>
            <Show when={lacksWakeLock(window)}>
              {(why) => <p class="reminder">{words().heat.goesDark[why()]}</p>}
            </Show>
            <button type="button" class="act ember" onClick={() => start(tool)}>
              {hasRead(tool) ? words().heat.start : words().heat.readAndStart}
              <small>{words().heat.startHint(tool.kind)}</small>
            </button>
          </>
        )}
      </Show>
    </main>
  );
}
