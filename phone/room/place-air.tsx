import { For, Show, createMemo, createSignal } from "solid-js";
import type { PlaceForecast } from "#shared/kitchen/model/forecast.ts";
import { aliveTrays, standsAt } from "#shared/kitchen/model/lookups.ts";
import type { Place } from "#shared/kitchen/model/vocabulary.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { ReadingSheet } from "./reading-sheet.tsx";

/** One place in a line: its air, how many trays. Unfolded, what the air does to icing there today, and a reading to enter. */
export function PlaceAir(props: { place: Place }) {
  const { board, words } = usePhone();
  const [reading, setReading] = createSignal(false);
  const outlook = createMemo(() => board.forecasts().places[props.place.id]);
  const trays = createMemo(
    () => aliveTrays(board.kitchen()).filter((tray) => standsAt(tray).placeId === props.place.id).length,
  );
  const films = () => (outlook()?.films ?? []).filter(({ consistency }) => consistency !== "detail");
  return (
    <li class="card place-line">
      <details>
        <summary>
          <strong>{props.place.name}</strong>
          <span>
            {words().room.place.airShort(outlook()?.air)} ·{" "}
            {words().room.place.trays(trays(), props.place.capacity)}
          </span>
        </summary>
        <AirWords place={props.place} outlook={outlook()} />
        <For each={films()}>
          {(film) => (
            <span>
              {words().room.place.film(film.thicknessMm, film.consistency, film.skin, film.dryThrough)}
            </span>
          )}
        </For>
        <button type="button" class="small" onClick={() => setReading(true)}>
          {words().room.place.enterReading}
        </button>
      </details>
      <Show when={reading()}>
        <ReadingSheet place={props.place} onClose={() => setReading(false)} />
      </Show>
    </li>
  );
}

function AirWords(props: { place: Place; outlook: PlaceForecast | undefined }) {
  const { board, words } = usePhone();
  const text = (): string =>
    words().room.place.air({
      air: props.outlook?.air,
      readAt: board.kitchen().places[props.outlook?.readAt ?? ""]?.name,
      trouble: props.outlook?.trouble,
      isMeasured: props.outlook?.basis === "measured",
    });
  return (
    <span>
      {text()}
      {props.place.setTempC === undefined ? "" : ` · ${words().room.place.setTo(props.place.setTempC)}`}
    </span>
  );
}
