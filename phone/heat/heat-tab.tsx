import { For, Show, createMemo, createSignal } from "solid-js";
import { alike } from "#shared/client/screen/alike.ts";
import { sortedByName } from "#shared/collections.ts";
import { sinkingRecord, type SinkingRecord } from "#shared/kitchen/tray/sinking.ts";
import { heatToolOf } from "#shared/kitchen/forecast/air.ts";
import { aliveTrays, heatHolder } from "#shared/kitchen/model/lookups.ts";
import { stillHotUntilMs } from "#shared/kitchen/tray/tool-heat.ts";
import type { HeatSet, ToolState } from "#shared/kitchen/model/state.ts";
import { stopwatch } from "#shared/words/spans.ts";
import { HeatTitle } from "./cautions.tsx";
import { HotTray } from "./hot-tray.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { ShiftEnd } from "./shift-end.tsx";
import { ToolSheet } from "./tool-sheet.tsx";
import { coolingLeftMs, readingOf, toolFact } from "./tool-words.ts";

/** Everything hot: heat-sets under way, each tool, and the check before going home. */
export function HeatTab() {
  const { board, words } = usePhone();
  const [openId, setOpenId] = createSignal<string>();
  const [leaving, setLeaving] = createSignal(false);
  const running = createMemo(
    () =>
      Object.values(board.kitchen().trays)
        .flatMap(({ id, status }) =>
          status.stage === "heat-set" ? [{ id, sinceMs: status.heat.lapFromMs }] : [],
        )
        .toSorted((a, b) => a.sinceMs - b.sinceMs)
        .map(({ id }) => id),
    [],
    alike,
  );
  const hot = createMemo(() =>
    aliveTrays(board.kitchen()).filter(
      (tray) => stillHotUntilMs(board.kitchen(), tray, board.nowMs()) !== undefined,
    ),
  );
  const tools = createMemo(() => sortedByName(board.kitchen().tools));
  const sinking = createMemo(() => sinkingRecord(board.kitchen(), board.nowMs()));
  const open = createMemo(() => tools().find((tool) => tool.id === openId()));
  return (
    <main>
      <HeatTitle>{words().heat.title}</HeatTitle>
      <Show when={running().length > 0} fallback={<p class="quiet">{words().heat.none}</p>}>
        <ul class="cards">
          <For each={running()}>{(id) => <Running id={id} />}</For>
        </ul>
      </Show>
      <For each={hot()}>{(tray) => <HotTray tray={tray} isNamed />}</For>
      <h2>{words().heat.tools}</h2>
      <Show when={tools().length > 0} fallback={<p class="quiet">{words().heat.noTools}</p>}>
        <ul class="cards">
          <For each={tools()}>
            {(tool) => (
              <li>
                <button
                  type="button"
                  class="line-card"
                  data-tone={toneOf(tool, board.nowMs())}
                  onClick={() => setOpenId(tool.id)}
                >
                  <span class="words">
                    <strong>{tool.name}</strong>
                    <span>{words().heat.tool(toolFact(board.kitchen(), tool, board.nowMs()))}</span>
                    <Show when={readingOf(tool, board.nowMs())}>
                      {(read) => <span>{words().heat.read(read().tempC, read().atMs)}</span>}
                    </Show>
                  </span>
                  <span class="wait">{words().heat.set(heatToolOf(board.kitchen(), tool).airC)}</span>
                </button>
              </li>
            )}
          </For>
        </ul>
      </Show>
      <Show when={hasSinking(sinking())}>
        <p class="quiet">{words().heat.sinking(sinking())}</p>
      </Show>
      <button type="button" class="plain wide" onClick={() => setLeaving(true)}>
        {words().heat.shiftEnd}
      </button>
      <Show when={open()}>{(tool) => <ToolSheet tool={tool()} onClose={() => setOpenId(undefined)} />}</Show>
      <Show when={leaving()}>
        <ShiftEnd onClose={() => setLeaving(false)} />
      </Show>
    </main>
  );
}

const hasSinking = ({ films }: SinkingRecord): boolean =>
  films["in time"] + films.late + films["not set"] > 0;

const toneOf = (tool: ToolState, nowMs: number): string => {
  if (tool.use.status === "on") return "hot";
  if (tool.outOfService !== undefined) return "out";
  return coolingLeftMs(tool, nowMs) > 0 ? "cooling" : "cold";
};

function Running(props: { id: string }) {
  const { board } = usePhone();
  const tray = createMemo(() => board.kitchen().trays[props.id]);
  const heat = createMemo(() => {
    const status = tray()?.status;
    return status?.stage === "heat-set" ? status.heat : undefined;
  });
  return (
    <li>
      <Show when={heat()}>{(heat) => <RunningCard number={tray()?.number ?? 0} heat={heat()} />}</Show>
    </li>
  );
}

function RunningCard(props: { number: number; heat: HeatSet }) {
  const { board, words } = usePhone();
  const elapsedS = (): number => (board.nowMs() - props.heat.lapFromMs) / 1000;
  const isPaused = (): boolean => props.heat.pausedSinceMs !== undefined;
  const isPast = (): boolean => !isPaused() && elapsedS() >= props.heat.limits.stopByS;
  const title = (): string => {
    const { running } = words().heat;
    if (isPaused()) return words().trays.heatPaused;
    return isPast() ? running.stop : running.on;
  };
  const who = (): string | undefined => board.kitchen().people[heatHolder(board.kitchen(), props.heat)]?.name;
  const tool = (): string => board.kitchen().tools[props.heat.toolId]?.name ?? "";
  return (
    <a class="tray-card" data-tone="heat" data-past={isPast()} href={`#/t/${props.number}/heat`}>
      <span class="number">{props.number}</span>
      <span class="words">
        <strong>{title()}</strong>
        <span>{words().heat.runningLine(tool(), who(), props.heat.limits.stopByS)}</span>
      </span>
      <Show when={!isPaused()}>
        <span class="wait">{stopwatch(elapsedS())}</span>
      </Show>
    </a>
  );
}
