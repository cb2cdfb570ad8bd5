import { For, Show, createMemo } from "solid-js";
import { handsSince } from "#shared/kitchen/day-sheet/hands.ts";
import { type LikelyCause, type ProblemGroup, problemsSince } from "#shared/kitchen/day-sheet/problems.ts";
import { dayStartMs } from "#shared/kitchen/model/calendar.ts";
import { batchOf } from "#shared/kitchen/model/lookups.ts";
import { MIN_MS } from "#shared/time.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { namedBatch } from "#phone/icing/named-batch.ts";

/** What went wrong today and likely why, and how long hands took. */
export function DayReport() {
  const { board, words, zone } = usePhone();
  const text = () => words().happened;
  const minuteMs = createMemo(() => Math.floor(board.nowMs() / MIN_MS) * MIN_MS);
  const sinceMs = createMemo(() => dayStartMs(minuteMs(), zone()));
  const problems = createMemo(() => problemsSince(board.kitchen(), sinceMs()));
  return (
    <>
      <section class="card day-problems print-block">
        <h2>{text().problems}</h2>
        <For each={problems()} fallback={<p>{text().noProblems}</p>}>
          {(group) => <Problem group={group} />}
        </For>
      </section>
      <Hands sinceMs={sinceMs()} />
    </>
  );
}

function Problem(props: { group: ProblemGroup }) {
  const { board, words } = usePhone();
  const text = () => words().happened;
  const causeText = (cause: LikelyCause): string => {
    const batch = cause.code === "batch" ? batchOf(board.kitchen(), cause.batchId) : undefined;
    return text().cause(cause, batch && namedBatch(board.kitchen(), batch), board.nowMs());
  };
  return (
    <div class="day-problem">
      <strong>
        {text().problem(text().problemKinds[props.group.problem], props.group.cookies, props.group.trays)}
      </strong>
      <Show when={props.group.causes.length > 0}>
        <span>{text().likely}</span>
      </Show>
      <ul>
        <For each={props.group.causes}>
          {(cause) => (
            <li>
              <Show when={cause.code === "batch" && cause} fallback={causeText(cause)}>
                {(batch) => <a href={`#/batch/${batch().batchId}`}>{causeText(cause)}</a>}
              </Show>
            </li>
          )}
        </For>
        <Show when={props.group.unexplained.length > 0}>
          <li>{text().unexplained(props.group.unexplained)}</li>
        </Show>
      </ul>
    </div>
  );
}

function Hands(props: { sinceMs: number }) {
  const { board, words } = usePhone();
  const text = () => words().happened;
  const format = () => words().format;
  const rows = createMemo(() => handsSince(board.kitchen(), props.sinceMs));
  return (
    <section class="card mix day-hands print-block">
      <h2>{text().hands}</h2>
      <Show when={rows().length > 0} fallback={<p>{text().noHands}</p>}>
        <table>
          <thead>
            <tr>
              <td />
              <th scope="col">{text().handsColumns.tray}</th>
              <th scope="col">{text().handsColumns.cookie}</th>
              <th scope="col">{text().handsColumns.timed}</th>
            </tr>
          </thead>
          <tbody>
            <For each={rows()}>
              {(row) => (
                <tr>
                  <th scope="row">{format().sentence(words().terms.consistencies[row.consistency])}</th>
                  <td data-what={text().handsColumns.tray}>
                    {format().span(row.middleMin)}
                    <Show when={row.trays > 1}>
                      <small>{format().band(row.leastMin, row.mostMin)}</small>
                    </Show>
                  </td>
                  <td data-what={text().handsColumns.cookie}>{format().stopwatch(row.cookieMin * 60)}</td>
                  <td data-what={text().handsColumns.timed}>{format().number(row.trays)}</td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </Show>
    </section>
  );
}
