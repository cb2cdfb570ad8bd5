import { For, Show, createMemo, createSignal } from "solid-js";
import { sortedByName } from "#shared/kitchen/model/by-name.ts";
import { sinkingWords } from "#shared/kitchen/tray/sinking.ts";
import { heatToolOf } from "#shared/kitchen/forecast/air.ts";
import { aliveTrays, heatHolder } from "#shared/kitchen/model/state.ts";
import { stillHotUntilMs } from "#shared/kitchen/tray/tool-heat.ts";
import type { HeatSet, ToolState } from "#shared/kitchen/model/state.ts";
import { formatStopwatch, formatTemp } from "#shared/units.ts";
import { HeatTitle } from "./cautions.tsx";
import { HotTray } from "./hot-tray.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { sameList } from "#phone/ui/same-list.ts";
import { ShiftEnd } from "./shift-end.tsx";
import { ToolSheet } from "./tool-sheet.tsx";
import { coolingLeftMs, readWords, toolWords } from "./tool-words.ts";

/** Everything hot: heat-sets under way, each tool, and the check before going home. */
export function HeatTab() {
  const { board, units, zone } = usePhone();
  const [openId, setOpenId] = createSignal<string>();
  const [leaving, setLeaving] = createSignal(false);
  const running = createMemo(
    () =>
      Object.values(board.kitchen().trays)
        .flatMap(({ id, standing }) =>
          standing.stage === "heat-set" ? [{ id, sinceMs: standing.heat.lapFromMs }] : [],
        )
        .toSorted((a, b) => a.sinceMs - b.sinceMs)
        .map(({ id }) => id),
    [],
    { equals: sameList },
  );
  const hot = createMemo(() =>
    aliveTrays(board.kitchen()).filter(
      (tray) => stillHotUntilMs(board.kitchen(), tray, board.nowMs()) !== undefined,
    ),
  );
  const tools = createMemo(() => sortedByName(board.kitchen().tools));
  const open = createMemo(() => tools().find((tool) => tool.id === openId()));
  return (
    <main>
      <HeatTitle>Heat</HeatTitle>
      <Show
        when={running().length > 0}
        fallback={<p class="quiet">No tray is under heat. Start a heat-set from a tray.</p>}
      >
        <ul class="cards">
          <For each={running()}>{(id) => <Running id={id} />}</For>
        </ul>
      </Show>
      <For each={hot()}>{(tray) => <HotTray tray={tray} isNamed />}</For>
      <h2>Tools</h2>
      <Show
        when={tools().length > 0}
        fallback={<p class="quiet">None yet. A lead adds them under Room → Kitchen.</p>}
      >
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
                    <span>{toolWords(board.kitchen(), tool, board.nowMs())}</span>
                    <Show when={readWords(tool, board.nowMs(), units(), zone())}>
                      {(read) => <span>{read()}</span>}
                    </Show>
                  </span>
                  <span class="wait">set {formatTemp(heatToolOf(board.kitchen(), tool).airC, units())}</span>
                </button>
              </li>
            )}
          </For>
        </ul>
      </Show>
      <Show when={sinkingWords(board.kitchen(), board.nowMs())}>
        {(words) => <p class="quiet">{words()}</p>}
      </Show>
      <button type="button" class="plain wide" onClick={() => setLeaving(true)}>
        End-of-shift check
      </button>
      <Show when={open()}>{(tool) => <ToolSheet tool={tool()} onClose={() => setOpenId(undefined)} />}</Show>
      <Show when={leaving()}>
        <ShiftEnd onClose={() => setLeaving(false)} />
      </Show>
    </main>
  );
}

const toneOf = (tool: ToolState, nowMs: number): string => {
  if (tool.use.status === "on") return "hot";
  if (tool.outOfService !== undefined) return "out";
  return coolingLeftMs(tool, nowMs) > 0 ? "cooling" : "cold";
};

function Running(props: { id: string }) {
  const { board } = usePhone();
  const tray = createMemo(() => board.kitchen().trays[props.id]);
  const heat = createMemo(() => {
    const standing = tray()?.standing;
    return standing?.stage === "heat-set" ? standing.heat : undefined;
  });
  return (
    <li>
      <Show when={heat()}>{(heat) => <RunningCard number={tray()?.number ?? 0} heat={heat()} />}</Show>
    </li>
  );
}

function RunningCard(props: { number: number; heat: HeatSet }) {
  const { board } = usePhone();
  const elapsedS = (): number => (board.nowMs() - props.heat.lapFromMs) / 1000;
  const isPast = (): boolean => elapsedS() >= props.heat.limits.stopByS;
  const who = (): string =>
    board.kitchen().people[heatHolder(board.kitchen(), props.heat)]?.name ?? "someone";
  return (
    <a class="tray-card" data-tone="heat" data-past={isPast()} href={`#/t/${props.number}/heat`}>
      <span class="number">{props.number}</span>
      <span class="words">
        <strong>{isPast() ? "Stop the heat" : "Heat-set"}</strong>
        <span>
          {board.kitchen().tools[props.heat.toolId]?.name} · {who()} · stop by{" "}
          {formatStopwatch(props.heat.limits.stopByS)}
        </span>
      </span>
      <span class="wait">{formatStopwatch(elapsedS())}</span>
    </a>
  );
}
