import { Match, Show, Switch, createEffect, createMemo, createSignal, on } from "solid-js";
import { aliveTrays, standsAt, trayByNumber, trayUnder } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen, ToolState } from "#shared/kitchen/model/state.ts";
import { HeatStart } from "./heat-start.tsx";
import { HotTray } from "./hot-tray.tsx";
import { HeatTimer } from "./heat-timer.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { ToolAfter } from "./tool-after.tsx";
import { createWakeLock } from "#shared/client/screen/wake-lock.ts";

/** A tray's heat: start it, watch it, and see to the tool afterwards. */
export function HeatScreen(props: { number: number }) {
  const { board, words, go } = usePhone();
  const tray = createMemo(() => trayByNumber(board.kitchen(), props.number));
  const heat = createMemo(() => {
    const status = tray()?.status;
    return status?.stage === "heat-set" ? status.heat : undefined;
  });
  const [afterId, setAfterId] = createSignal<string>();
  const after = createMemo(() => {
    const tool = board.kitchen().tools[afterId() ?? ""];
    return tool?.use.status === "on" && !hasTrays(board.kitchen(), tool) ? tool : undefined;
  });
  const goesDark = createWakeLock(window, () => heat() !== undefined);
  // Ended, here or by someone else: nothing is left to watch on this screen but the tool, and its holder is asked for it.
  createEffect(
    on(heat, (now, before) => {
      if (before === undefined || now !== undefined || after() !== undefined) return;
      const tool = board.kitchen().tools[before.toolId];
      const isMine = tool?.use.status === "on" && tool.use.holder === board.me.personId;
      if (isMine && !hasTrays(board.kitchen(), tool)) setAfterId(before.toolId);
      else go(`t/${props.number}`);
    }),
  );
  return (
    <Switch fallback={<Show when={tray()}>{(tray) => <HeatStart tray={tray()} />}</Show>}>
      <Match when={heat()}>
        {(heat) => (
          <Show when={tray()}>
            {(tray) => <HeatTimer tray={tray()} heat={heat()} goesDark={goesDark()} onEnded={setAfterId} />}
          </Show>
        )}
      </Match>
      <Match when={after()}>
        {(tool) => (
          <main>
            <h1>{words().app.titles.tray(String(props.number))}</h1>
            <Show when={tray()}>{(tray) => <HotTray tray={tray()} />}</Show>
            <ToolAfter tool={tool()} onDone={() => go(`t/${props.number}`)} />
          </main>
        )}
      </Match>
    </Switch>
  );
}

/** Whether a tool has other trays to warm: then it is not to be switched off yet. */
const hasTrays = (kitchen: Kitchen, { id, placeId }: ToolState): boolean =>
  trayUnder(kitchen, id) !== undefined ||
  aliveTrays(kitchen).some((tray) => standsAt(tray).placeId === placeId);
