import { For, Show, createMemo, on } from "solid-js";
import { daySheet } from "#shared/kitchen/day-sheet/day-sheet.ts";
import type { BesideDay, DayRow, DaySheet } from "#shared/kitchen/day-sheet/day-sheet.ts";
import type { Climate } from "#shared/drying/air-record/measured-air.ts";
import type { Span } from "#shared/drying/uncertainty/span.ts";
import type { Spans } from "#shared/kitchen/forecast/films.ts";
import { clockTime, sentence } from "#shared/words/wording.ts";
import { formatBand, formatLength, formatTemp } from "#shared/units.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { MIN_MS } from "#shared/time.ts";

/** Today's air and what it does to icing, beside yesterday and the usual. One page on paper. */
export function DayScreen() {
  const { board } = usePhone();
  const minute = createMemo(() => Math.floor(board.nowMs() / MIN_MS));
  const hasForecast = createMemo(() => Object.keys(board.forecasts().places).length > 0);
  const sheet = createMemo(
    on([minute, hasForecast], () => daySheet(board.kitchen(), board.forecasts(), undefined, board.nowMs())),
  );
  return (
    <main class="day-sheet">
      <Show when={sheet()} fallback={<NoSheet />}>
        {(sheet) => <Sheet sheet={sheet()} />}
      </Show>
    </main>
  );
}

function NoSheet() {
  return (
    <>
      <h1>Today's air</h1>
      <p class="quiet">
        No forecast of a place in the room's own air yet. A lead adds one under Room → Places.
      </p>
    </>
  );
}

function Sheet(props: { sheet: DaySheet }) {
  const { board, zone, units, print } = usePhone();
  const date = (): string =>
    new Intl.DateTimeFormat("en-GB", {
      timeZone: zone(),
      weekday: "long",
      day: "numeric",
      month: "long",
      year: "numeric",
    }).format(props.sheet.atMs);
  const air = ({ tempC, rhPct }: Climate): string =>
    `${formatTemp(tempC, units())}, ${Math.round(rhPct)} % RH`;
  return (
    <>
      <h1>
        Today's air<span class="for-print"> · {board.kitchen().settings.name}</span>
      </h1>
      <p class="note">
        {date()}, {clockTime(props.sheet.atMs, zone())} · {props.sheet.place}
      </p>
      <p class="headline">{props.sheet.headline}</p>
      <p class="note">
        Now {air(props.sheet.today)}
        <Show when={props.sheet.yesterday}>{(then) => <> · yesterday at this hour {air(then())}</>}</Show>
        <Show when={props.sheet.usual}>{(then) => <> · usually {air(then())}</>}</Show>
      </p>
      <div class="day-rows">
        <For each={props.sheet.rows}>{(row) => <Row row={row} />}</For>
      </div>
      <For each={props.sheet.missing}>{(line) => <p class="note">{line}</p>}</For>
      <p class="note">
        Earliest to latest, for a film laid now at its usual thickness. {props.sheet.ahead} A touch test
        overrules it.
      </p>
      <Show when={print}>
        {(print) => (
          <button type="button" class="plain wide not-print" onClick={() => print()()}>
            Print this page
          </button>
        )}
      </Show>
    </>
  );
}

const DAYS = ["today", "yesterday", "usual"] as const;

function Row(props: { row: DayRow }) {
  const { units } = usePhone();
  const days = createMemo(() =>
    DAYS.flatMap((day): { day: string; spans: Spans | BesideDay }[] => {
      const spans = props.row[day];
      return spans === undefined ? [] : [{ day, spans }];
    }),
  );
  return (
    <section class="day-row">
      <h2>
        {sentence(props.row.consistency)}, {formatLength(props.row.thicknessMm, units())}
      </h2>
      <p>{props.row.sentence}</p>
      <Show when={days().length > 1}>
        <table>
          <thead>
            <tr>
              <td />
              <th scope="col">skins in</th>
              <th scope="col">dry through in</th>
            </tr>
          </thead>
          <tbody>
            <For each={days()}>
              {({ day, spans }) => (
                <tr data-day={day}>
                  <th scope="row">{day === "usual" ? "usually" : day}</th>
                  <td data-what="skins in">{spanWords(spans.skin)}</td>
                  <td data-what="dry through in">{spanWords(spans.dryThrough)}</td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </Show>
    </section>
  );
}

const spanWords = (span: Span): string =>
  "never" in span ? "never" : formatBand(span.earliestMin, span.latestMin);
