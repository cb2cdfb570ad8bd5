import { For, Show, createMemo, createSignal } from "solid-js";
import { type Kind, batchesOf, inDateG } from "#shared/kitchen/mixing/batches.ts";
import { baseRecipes, icingToMix, openOrders } from "#shared/kitchen/mixing/icing-needed.ts";
import type { IcingMix, IcingToMix, MixRow } from "#shared/kitchen/mixing/icing-needed.ts";
import { mixNotes, needWords, recipeWords, spoonWords } from "#shared/words/icing.ts";
import { dayTime, sentence } from "#shared/words/wording.ts";
import { formatMass, formatVolume } from "#shared/units.ts";
import { Batches, MixedSheet } from "./batches.tsx";
import { Allergens, Cautions } from "#phone/heat/cautions.tsx";
import { Select } from "#phone/ui/fields.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { StirIn } from "./stir-in.tsx";
import { MIN_MS } from "#shared/time.ts";

const ALL = "";

/** How much of each icing and consistency is still to mix, of one order or of all; on paper too. */
export function IcingScreen(props: { orderId: string | undefined }) {
  const { board, go, print } = usePhone();
  const minuteMs = createMemo(() => Math.floor(board.nowMs() / MIN_MS) * MIN_MS);
  const orders = createMemo(() => openOrders(board.kitchen(), minuteMs()));
  const toMix = createMemo(() => icingToMix(board.kitchen(), minuteMs(), props.orderId));
  const choices = createMemo(() => {
    const open = orders().map(({ order }) => order);
    const own = board.kitchen().orders[props.orderId ?? ALL];
    const all = own === undefined || open.includes(own) ? open : [own, ...open];
    return [{ value: ALL, name: "all open orders" }, ...all.map(({ id, name }) => ({ value: id, name }))];
  });
  return (
    <main class="icing-sheet">
      <h1>
        Icing to mix<span class="for-print"> · {board.kitchen().settings.name}</span>
      </h1>
      <AsOf orderId={props.orderId} />
      <Show when={orders().length > 1 || props.orderId !== undefined}>
        <div class="not-print">
          <Select
            label="For"
            value={props.orderId ?? ALL}
            options={choices()}
            onChange={(orderId) => go(orderId === ALL ? "icing" : `icing/${orderId}`)}
          />
        </div>
      </Show>
      <Show when={toMix().mixes.length > 0} fallback={<Nothing toMix={toMix()} orderId={props.orderId} />}>
        <MixTable mixes={toMix().mixes} />
        <Base toMix={toMix()} />
      </Show>
      <Show when={props.orderId === undefined}>
        <AlsoMixed mixes={toMix().mixes} />
      </Show>
      <Notes toMix={toMix()} />
      <Show when={toMix().mixes.length > 0 && print}>
        {(print) => (
          <button type="button" class="plain wide not-print" onClick={() => print()()}>
            Print this page
          </button>
        )}
      </Show>
      <StirIn />
      <Cautions card="eggs" />
      <Allergens />
    </main>
  );
}

/** Of when the figures are: on paper, and wherever they are no longer live. */
function AsOf(props: { orderId: string | undefined }) {
  const { board, zone } = usePhone();
  const isLive = (): boolean => board.connection().is === "live";
  const name = (): string => board.kitchen().orders[props.orderId ?? ""]?.name ?? "All open orders";
  const at = (): string =>
    isLive()
      ? dayTime(board.nowMs(), zone())
      : `as last heard ${dayTime(board.heardAtMs() ?? board.nowMs(), zone())}`;
  return (
    <p class="note" classList={{ "for-print": isLive() }}>
      {name()} · {at()}
    </p>
  );
}

function Nothing(props: { toMix: IcingToMix; orderId: string | undefined }) {
  const { board } = usePhone();
  const words = (): string => {
    if (props.toMix.orders.length > 0) return "No trays yet, so nothing to reckon with.";
    if (props.orderId !== undefined && board.kitchen().orders[props.orderId] === undefined)
      return "This order is not here any more. It may be packed and put away, or cancelled.";
    return Object.keys(board.kitchen().orders).length === 0
      ? "Nothing to mix: no orders yet."
      : "Nothing to mix: every layer is laid or in hand.";
  };
  return <p class="empty">{words()}</p>;
}

/** Every icing with its consistencies: what to mix, and of how much base and water. */
function MixTable(props: { mixes: readonly IcingMix[] }) {
  return (
    <section class="mix">
      <table>
        <thead>
          <tr>
            <td />
            <th scope="col">mix</th>
            <th scope="col">base</th>
            <th scope="col">water</th>
          </tr>
        </thead>
        <For each={props.mixes}>{(mix) => <Mix mix={mix} />}</For>
      </table>
    </section>
  );
}

function Mix(props: { mix: IcingMix }) {
  return (
    <tbody>
      <tr class="icing">
        <th scope="rowgroup" colspan="4">
          <span class="swatch" style={{ background: props.mix.hex }} aria-hidden="true" />
          <span>{sentence(props.mix.name)}</span>
        </th>
      </tr>
      <For each={props.mix.rows}>{(row) => <Row icingId={props.mix.icingId} row={row} />}</For>
      <Show when={props.mix.rows.length > 1}>
        <tr>
          <th scope="row" colspan="2">
            base in all
          </th>
          <td data-what="base">{formatMass(props.mix.baseG)}</td>
          <td />
        </tr>
      </Show>
    </tbody>
  );
}

/** Batches of what no layer is still to be laid with. */
function AlsoMixed(props: { mixes: readonly IcingMix[] }) {
  const { board } = usePhone();
  const others = createMemo(() => {
    const isNeeded = ({ icingId, consistency }: Kind): boolean =>
      props.mixes.some(
        (mix) => mix.icingId === icingId && mix.rows.some((row) => row.consistency === consistency),
      );
    return Object.values(board.kitchen().batches)
      .filter((batch) => !isNeeded(batch))
      .toSorted((a, b) => a.useByAtMs - b.useByAtMs);
  });
  return (
    <Show when={others().length > 0}>
      <section class="mix">
        <h2>Also standing mixed</h2>
        <Batches batches={others()} isNamed />
      </section>
    </Show>
  );
}

function Row(props: { icingId: string; row: MixRow }) {
  const { board, units } = usePhone();
  const [isMixing, setMixing] = createSignal(false);
  const kind = (): Kind => ({ icingId: props.icingId, consistency: props.row.consistency });
  const batches = createMemo(() => batchesOf(board.kitchen(), kind()));
  return (
    <>
      <tr>
        <th scope="row">{props.row.consistency}</th>
        <td data-what="mix">
          <strong>{formatMass(props.row.mixG)}</strong>
          <Show when={units() === "us"}>
            <small>{formatVolume(props.row.mixMl, units())}</small>
          </Show>
        </td>
        <td data-what="base">{formatMass(props.row.baseG)}</td>
        <td data-what="water">
          {props.row.waterG === 0 ? "none" : formatMass(props.row.waterG)}
          <Show when={spoonWords(props.row.waterG, units())}>{(spoons) => <small>{spoons()}</small>}</Show>
        </td>
      </tr>
      <tr class="need">
        <td colspan="4">
          <div class="need-line">
            <span>{needWords(props.row, inDateG(batches(), board.nowMs()))}</span>
            <button
              type="button"
              class="small not-print"
              aria-label={`${props.row.consistency}: mixed`}
              onClick={() => setMixing(true)}
            >
              Mixed
            </button>
          </div>
          <Batches batches={batches()} />
          <Show when={isMixing()}>
            <MixedSheet kind={kind()} mixG={props.row.mixG} onClose={() => setMixing(false)} />
          </Show>
        </td>
      </tr>
    </>
  );
}

/** The base of all colours together, and what to make it from. */
function Base(props: { toMix: IcingToMix }) {
  const { units } = usePhone();
  const recipes = createMemo(() => baseRecipes(props.toMix.mixes));
  return (
    <section class="mix base">
      <h2>Base icing in all: {formatMass(props.toMix.baseG)}</h2>
      <Show when={recipes().length > 0}>
        <details>
          <summary>What that takes, from two usual recipes</summary>
          <dl>
            <For each={recipes()}>
              {(recipe) => (
                <>
                  <dt>With {recipe.name}</dt>
                  <dd>{recipeWords(recipe, units())}</dd>
                </>
              )}
            </For>
          </dl>
          <p class="note">From memory: your own recipe comes first.</p>
        </details>
      </Show>
    </section>
  );
}

function Notes(props: { toMix: IcingToMix }) {
  const { units, isLead } = usePhone();
  return (
    <>
      <For each={mixNotes(props.toMix, units())}>{(line) => <p class="note">{line}</p>}</For>
      <Show when={props.toMix.guessed.length > 0 && isLead()}>
        <a class="plain wide not-print" href="#/designs">
          Give areas under Designs
        </a>
      </Show>
    </>
  );
}
