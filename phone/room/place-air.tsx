import { For, Show, createMemo, createSignal } from "solid-js";
import type { Span } from "#shared/drying/uncertainty/span.ts";
import type { PlaceOutlook } from "#shared/kitchen/model/forecast.ts";
import { aliveTrays, standsAt } from "#shared/kitchen/model/state.ts";
import type { Place } from "#shared/kitchen/model/vocabulary.ts";
import { clockTime } from "#shared/words/wording.ts";
import { formatBand, formatLength, formatTemp } from "#shared/units.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { ReadingSheet } from "./reading-sheet.tsx";

/** One place: its air, what the air does to icing there today, and a reading to enter. */
export function PlaceAir(props: { place: Place }) {
  const { board, units } = usePhone();
  const [reading, setReading] = createSignal(false);
  const outlook = createMemo(() => board.forecasts().places[props.place.id]);
  const trays = createMemo(
    () => aliveTrays(board.kitchen()).filter((tray) => standsAt(tray).placeId === props.place.id).length,
  );
  const films = () => (outlook()?.films ?? []).filter(({ consistency }) => consistency !== "detail");
  return (
    <li class="place-card">
      <span class="order-top">
        <strong>{props.place.name}</strong>
        <span>
          {trays()} of {props.place.capacity} trays
        </span>
      </span>
      <AirWords place={props.place} outlook={outlook()} />
      <For each={films()}>
        {(film) => (
          <span>
            A {formatLength(film.thicknessMm, units())} {film.consistency} {span(film.skin, "skins in")},{" "}
            {span(film.dryThrough, "dries through in")}
          </span>
        )}
      </For>
      <button type="button" class="small" onClick={() => setReading(true)}>
        Enter a reading
      </button>
      <Show when={reading()}>
        <ReadingSheet place={props.place} onClose={() => setReading(false)} />
      </Show>
    </li>
  );
}

const span = (span: Span, verb: string): string =>
  "never" in span
    ? `never ${verb.replace(" in", "")}: ${span.never}`
    : `${verb} ${formatBand(span.earliestMin, span.latestMin)}`;

function AirWords(props: { place: Place; outlook: PlaceOutlook | undefined }) {
  const { board, zone, units } = usePhone();
  const elsewhere = (): string => {
    const place = board.kitchen().places[props.outlook?.readAt ?? ""];
    return place === undefined ? "" : `, read at ${place.name}`;
  };
  const words = (): string => {
    const air = props.outlook?.air;
    if (air === undefined) return "No air reading yet: forecasts assume a usual room.";
    const read = `${formatTemp(air.tempC, units())} · ${Math.round(air.rhPct)} % RH at ${clockTime(air.atMs, zone())}${elsewhere()}`;
    if (props.outlook?.trouble === "frozen") return `${read}. The hygrometer seems stuck: bands are wider.`;
    if (props.outlook?.trouble === "silent") return `${read}. Nothing since: bands are wider.`;
    return props.outlook?.basis === "measured" ? read : `${read}, as last known`;
  };
  return (
    <span>
      {words()}
      {props.place.setTempC === undefined ? "" : ` · set to ${formatTemp(props.place.setTempC, units())}`}
    </span>
  );
}
