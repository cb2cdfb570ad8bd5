import { For, createSignal } from "solid-js";
import { compareNames } from "#shared/collections.ts";
import { standsAt, roomLeft } from "#shared/kitchen/model/lookups.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import type { Place } from "#shared/kitchen/model/vocabulary.ts";
import { TextField } from "#phone/ui/fields.tsx";
import { HotTray } from "#phone/heat/hot-tray.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { Sheet } from "#phone/ui/sheet.tsx";

/** Where to: one tap on a place, the one that would help first. An oven is reached by a heat-set, so that its clock runs. */
export function MoveSheet(props: { tray: Tray; helps?: string; onClose: () => void }) {
  const { board, words, act } = usePhone();
  const [slot, setSlot] = createSignal("");
  const places = (): Place[] =>
    Object.values(board.kitchen().places)
      .filter((place) => place.kind !== "oven")
      .toSorted((a, b) => Number(b.id === props.helps) - Number(a.id === props.helps) || compareNames(a, b));
  const move = (place: Place): void => {
    const placed = slot().trim();
    props.onClose();
    act(
      {
        type: "move-tray",
        trayId: props.tray.id,
        placeId: place.id,
        ...(placed === "" ? {} : { slot: placed }),
      },
      words().trays.said.moved(props.tray.number, place.name),
    );
  };
  const room = (place: Place): string => {
    if (place.id === standsAt(props.tray).placeId) return words().trays.standsHere;
    const left = roomLeft(board.kitchen(), place.id);
    const helps = place.id === props.helps ? `${words().trays.wouldHelp} · ` : "";
    return left > 0 ? `${helps}${words().trays.roomFor(left)}` : words().trays.full;
  };
  return (
    <Sheet title={words().trays.moveTray(props.tray.number)} onClose={props.onClose}>
      <HotTray tray={props.tray} />
      <TextField label={words().trays.slot} value={slot()} onInput={setSlot} maxLength={12} />
      <div class="choices">
        <For each={places()}>
          {(place) => (
            <button type="button" onClick={() => move(place)}>
              {place.name}
              <small>{room(place)}</small>
            </button>
          )}
        </For>
      </div>
      <button type="button" class="plain" onClick={() => props.onClose()}>
        {words().forms.cancel}
      </button>
    </Sheet>
  );
}
