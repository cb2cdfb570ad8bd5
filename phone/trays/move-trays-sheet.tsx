import { For, Show, createEffect, createMemo } from "solid-js";
import type { CommandInput } from "#shared/kitchen/model/command.ts";
import type { PlaceId } from "#shared/ids.ts";
import { asId } from "#shared/ids.ts";
import { placeWords } from "#shared/kitchen/tray/ready.ts";
import { standsAt } from "#shared/kitchen/model/state.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import { HotTray } from "#phone/heat/hot-tray.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { Sheet } from "#phone/ui/sheet.tsx";

/** Several trays to one place: a tap a tray as it is carried, or one for all. Those that stand there leave the list. */
export function MoveTraysSheet(props: { trays: readonly Tray[]; placeId: string; onClose: () => void }) {
  const { board, act, actAll } = usePhone();
  const place = createMemo(() => board.kitchen().places[props.placeId]);
  const name = (): string => place()?.name ?? "there";
  const left = createMemo(() => props.trays.filter((tray) => standsAt(tray).placeId !== props.placeId));
  const moveOf = ({ id }: Tray): CommandInput => ({
    type: "move-tray",
    trayId: id,
    placeId: asId<PlaceId>(props.placeId),
  });
  const moveAll = (): void =>
    actAll(left().map(moveOf), (count) => `${count} ${count === 1 ? "tray" : "trays"} to ${name()}`);
  createEffect(() => {
    if (left().length === 0) props.onClose();
  });
  return (
    <Sheet title={`To ${name()}`} onClose={props.onClose}>
      <p class="sheet-message">Tap each tray as it stands there.</p>
      <For each={left()}>{(tray) => <HotTray tray={tray} isNamed />}</For>
      <div class="choices">
        <For each={left()}>
          {(tray) => (
            <button type="button" onClick={() => act(moveOf(tray), `Tray ${tray.number} to ${name()}`)}>
              Tray {tray.number}
              <small>{placeWords(board.kitchen(), [tray])}</small>
            </button>
          )}
        </For>
      </div>
      <Show when={left().length > 1}>
        <button type="button" class="act" onClick={moveAll}>
          All {left().length} stand there now
        </button>
      </Show>
      <button type="button" class="plain" onClick={() => props.onClose()}>
        Leave it
      </button>
    </Sheet>
  );
}
