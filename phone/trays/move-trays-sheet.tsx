import { For, Show, createEffect, createMemo } from "solid-js";
import type { CommandInput } from "#shared/kitchen/model/command.ts";
import type { PlaceId } from "#shared/ids.ts";
import { asId } from "#shared/ids.ts";
import { placeOf } from "#shared/kitchen/tray/ready.ts";
import { standsAt } from "#shared/kitchen/model/lookups.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import { HotTray } from "#phone/heat/hot-tray.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { Sheet } from "#phone/ui/sheet.tsx";

/** Several trays to one place: a tap a tray as it is carried, or one for all. Those that stand there leave the list. */
export function MoveTraysSheet(props: { trays: readonly Tray[]; placeId: string; onClose: () => void }) {
  const { board, words, act, actAll } = usePhone();
  const place = createMemo(() => board.kitchen().places[props.placeId]);
  const name = (): string => place()?.name ?? words().trays.there;
  const left = createMemo(() => props.trays.filter((tray) => standsAt(tray).placeId !== props.placeId));
  const moveOf = ({ id }: Tray): CommandInput => ({
    type: "move-tray",
    trayId: id,
    placeId: asId<PlaceId>(props.placeId),
  });
  const moveAll = (): void =>
    actAll(left().map(moveOf), (count) => words().trays.said.movedMany(count, name()));
  createEffect(() => {
    if (left().length === 0) props.onClose();
  });
  return (
    <Sheet title={words().trays.toPlace(place()?.name)} onClose={props.onClose}>
      <p class="sheet-message">{words().trays.tapEach}</p>
      <For each={left()}>{(tray) => <HotTray tray={tray} isNamed />}</For>
      <div class="choices">
        <For each={left()}>
          {(tray) => (
            <button
              type="button"
              onClick={() => act(moveOf(tray), words().trays.said.moved(tray.number, name()))}
            >
              {words().app.titles.tray(String(tray.number))}
              <small>{words().terms.place(placeOf(board.kitchen(), [tray]))}</small>
            </button>
          )}
        </For>
      </div>
      <Show when={left().length > 1}>
        <button type="button" class="act" onClick={moveAll}>
          {words().trays.allThere(left().length)}
        </button>
      </Show>
      <button type="button" class="plain" onClick={() => props.onClose()}>
        {words().forms.cancel}
      </button>
    </Sheet>
  );
}
