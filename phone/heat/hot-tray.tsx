import { Show } from "solid-js";
import { stillHotUntilMs } from "#shared/kitchen/tray/tool-heat.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import { useFirst } from "#phone/app/phone.tsx";

/** "Tray hot until about 14:32: dry mitts.", wherever its number is shown while it is. */
export function HotTray(props: { tray: Tray; isNamed?: boolean }) {
  const { board, words } = useFirst();
  return (
    <Show when={stillHotUntilMs(board.kitchen(), props.tray, board.nowMs())}>
      {(untilMs) => (
        <p class="hot" role="status">
          {words().trays.hot(untilMs(), props.isNamed === true ? props.tray.number : undefined)}
        </p>
      )}
    </Show>
  );
}
