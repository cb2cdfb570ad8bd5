import { For, Show, createEffect, createMemo, createSignal, onCleanup, untrack } from "solid-js";
import type { Accessor } from "solid-js";
import { alike } from "#shared/client/screen/alike.ts";
import { learn } from "#shared/drying/uncertainty/learning.ts";
import { bookLine, bookRows } from "#shared/kitchen/calibration/book.ts";
import type { BookRow } from "#shared/kitchen/calibration/book.ts";
import type { EvidenceFact } from "#shared/kitchen/model/event.ts";
import { lessonsOf, teachingOf } from "#shared/kitchen/forecast/evidence.ts";
import { trustOf } from "#shared/kitchen/calibration/trust.ts";
import type { Found } from "#shared/kitchen/calibration/trust.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { RatioBar } from "#phone/ui/ratio-bar.tsx";
import { FoundWhere, TrustPlot } from "./trust-plot.tsx";

const QUANTITIES = ["skin", "dryThrough"] as const;
type Quantity = EvidenceFact["quantity"];

/** How this kitchen dries beside the model, how well the bands did, and where they were wrong. */
export function TrustScreen() {
  const { board, words } = usePhone();
  const text = () => words().trust;
  const [quantity, setQuantity] = createSignal<Quantity>("skin");
  const lessons = createMemo(() => lessonsOf(board.kitchen()), [], alike);
  const trust = createMemo(() => trustOf(lessons()));
  const rows = createBookRows(lessons);
  const own = createMemo(() => (rows() ?? []).filter((row) => row.quantity === quantity()));
  const line = createMemo(() => bookLine(quantity(), own(), trust()[quantity()].score));
  const score = createMemo(() => text().score(trust()[quantity()].score));
  const drawn = createMemo(() => trust()[quantity()].drawn);
  return (
    <main>
      <h1>{text().title}</h1>
      <div class="switch" role="group" aria-label={text().whichTime}>
        <For each={QUANTITIES}>
          {(one) => (
            <button type="button" aria-pressed={one === quantity()} onClick={() => setQuantity(one)}>
              {text().quantities[one]}
            </button>
          )}
        </For>
      </div>
      <p class="trust-line" aria-live="polite">
        {rows() === undefined ? text().working : words().book.line(line())}
      </p>
      <details class="card trust-score">
        <summary>{text().howWeCount}</summary>
        <p>{score().head}</p>
        <p class="note">{score().body}</p>
        <p class="note">{text().explained}</p>
      </details>
      <BookList of="kitchen" rows={own()} isKnown={rows() !== undefined} />
      <Show when={drawn().length > 0}>
        <TrustPlot drawn={drawn()} quantity={quantity()} />
      </Show>
      <BookList of="icing" rows={own()} isKnown />
      <BookList of="place" rows={own()} isKnown />
      <BookList of="heat" rows={own()} isKnown />
      <h2>{text().surprises}</h2>
      <ul class="cards">
        <For each={trust().surprises} fallback={<li class="quiet">{text().noSurprise}</li>}>
          {(found) => <Surprise found={found} />}
        </For>
      </ul>
    </main>
  );
}

/** How the kitchen, its icings or its places compare. */
function BookList(props: { of: BookRow["of"]; rows: readonly BookRow[]; isKnown: boolean }) {
  const { words } = usePhone();
  const text = () => words().trust;
  const own = createMemo(() => props.rows.filter((row) => row.of === props.of));
  return (
    <Show when={own().length > 0 || props.of === "kitchen"}>
      <section class="book">
        <h2>{text().lists[props.of]}</h2>
        <ul>
          <For
            each={own()}
            fallback={<li class="quiet">{props.isKnown ? text().nothingKnown : text().working}</li>}
          >
            {(row) => (
              <li>
                <p>
                  <strong>{words().book.name(row)}</strong> {words().book.row(row)}
                </p>
                <RatioBar row={row} />
              </li>
            )}
          </For>
        </ul>
        <Show when={props.of === "kitchen" && own().length > 0}>
          <p class="ratio-ends" aria-hidden="true">
            <span>{text().scale.half}</span>
            <span>{text().scale.same}</span>
            <span>{text().scale.twice}</span>
          </p>
        </Show>
      </section>
    </Show>
  );
}

function Surprise(props: { found: Found }) {
  const { words } = usePhone();
  const text = () => words().trust;
  return (
    <li class="card surprise">
      <span class="order-top">
        <strong>{text().film(props.found)}</strong>
        <FoundWhere found={props.found} />
      </span>
      <span>{text().found(props.found)}</span>
      <Show when={props.found.surprise}>
        {(surprise) => (
          <strong>{words().format.sentence(text().surprise(surprise(), props.found.contradicted))}</strong>
        )}
      </Show>
    </li>
  );
}

/** Let a burst of findings settle before learning again. */
const SETTLE_MS = 150;

/** Learning takes some tens of milliseconds: it is done after the screen has drawn, one quantity at a time. */
function createBookRows(
  lessons: Accessor<readonly EvidenceFact[]>,
): Accessor<readonly BookRow[] | undefined> {
  const { board, timer } = usePhone();
  const [rows, setRows] = createSignal<readonly BookRow[]>();
  createEffect(() => {
    const taught = lessons();
    const rowsOf = (quantity: Quantity): BookRow[] =>
      bookRows(
        untrack(board.kitchen),
        learn(teachingOf(untrack(board.kitchen), taught).filter((one) => one.quantity === quantity)),
      );
    let cancel = timer.after(SETTLE_MS, () => {
      const skin = rowsOf("skin");
      cancel = timer.after(0, () => setRows([...skin, ...rowsOf("dryThrough")]));
    });
    onCleanup(() => cancel());
  });
  return rows;
}
