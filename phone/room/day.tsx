import type { Band } from "#shared/drying/uncertainty/band.ts";
import { For, Show, createMemo, on } from "solid-js";
import { daySheet } from "#shared/kitchen/day-sheet/day-sheet.ts";
import type { DayRow, DaySheet } from "#shared/kitchen/day-sheet/sheet.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { DayReport } from "./day-report.tsx";
import { MIN_MS } from "#shared/time.ts";

/** Today's air beside yesterday and the usual, the day's problems and hands. One page on paper. */
export function DayScreen() {
  const { board, print, words } = usePhone();
  const minute = createMemo(() => Math.floor(board.nowMs() / MIN_MS));
  const hasForecast = createMemo(() => Object.keys(board.forecasts().places).length > 0);
  const sheet = createMemo(
    on([minute, hasForecast], () => daySheet(board.kitchen(), board.forecasts(), undefined, board.nowMs())),
  );
  return (
    <main class="day-sheet sheet-print">
      <Show when={sheet()} fallback={<NoSheet />}>
        {(sheet) => <Sheet sheet={sheet()} />}
      </Show>
      <DayReport />
      <Show when={print}>
        {(print) => (
          <button type="button" class="plain wide not-print" onClick={() => print()()}>
            {words().day.print}
          </button>
        )}
      </Show>
    </main>
  );
}

function NoSheet() {
  const { words } = usePhone();
  return (
    <>
      <h1>{words().app.titles.day}</h1>
      <p class="quiet">{words().day.noSheet}</p>
    </>
  );
}

function Sheet(props: { sheet: DaySheet }) {
  const { board, words } = usePhone();
  const day = () => words().day;
  const headline = () => {
    const { headline } = props.sheet;
    return headline === undefined ? undefined : day().headline(headline);
  };
  return (
    <>
      <h1>
        {words().app.titles.day}
        <span class="for-print"> · {board.kitchen().settings.name}</span>
      </h1>
      <p class="note">
        {words().format.date(props.sheet.atMs)}, {words().format.time(props.sheet.atMs)} · {props.sheet.place}
      </p>
      <Show when={headline()}>
        {(line) => (
          <p class="headline">
            {line().air} {line().films}
          </p>
        )}
      </Show>
      <p class="note">
        {day().now(props.sheet.today)}
        <Show when={props.sheet.yesterday}>{(then) => <> · {day().yesterday(then())}</>}</Show>
        <Show when={props.sheet.usual}>{(then) => <> · {day().usually(then())}</>}</Show>
      </p>
      <div class="day-rows">
        <For each={props.sheet.rows}>{(row) => <Row row={row} />}</For>
      </div>
      <For each={props.sheet.missing}>{(missing) => <p class="note">{day().missing(missing)}</p>}</For>
      <p class="note">{day().footnote(props.sheet)}</p>
    </>
  );
}

const DAYS = ["today", "yesterday", "usual"] as const;

function Row(props: { row: DayRow }) {
  const { words } = usePhone();
  const days = createMemo(() =>
    DAYS.flatMap((day) => {
      const spans = props.row[day];
      return spans === undefined ? [] : [{ day, spans }];
    }),
  );
  const spanText = (span: Band): string =>
    "never" in span ? words().day.never : words().format.bandOf(span);
  return (
    <section class="card day-row">
      <h2>
        {words().format.sentence(words().terms.consistencies[props.row.consistency])},{" "}
        {words().format.length(props.row.thicknessMm)}
      </h2>
      <p>{words().day.row(props.row)}</p>
      <Show when={days().length > 1}>
        <table>
          <thead>
            <tr>
              <td />
              <th scope="col">{words().day.skinsIn}</th>
              <th scope="col">{words().day.dryThroughIn}</th>
            </tr>
          </thead>
          <tbody>
            <For each={days()}>
              {({ day, spans }) => (
                <tr data-day={day}>
                  <th scope="row">{words().day.days[day]}</th>
                  <td data-what={words().day.skinsIn}>{spanText(spans.skin)}</td>
                  <td data-what={words().day.dryThroughIn}>{spanText(spans.dryThrough)}</td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </Show>
    </section>
  );
}
