import { For, Show, createMemo, createSignal } from "solid-js";
import { KeyedFor } from "#shared/client/screen/keyed-for.tsx";
import { type Kind, batchesOf, inDateG } from "#shared/kitchen/mixing/batches.ts";
import { baseRecipes, icingToMix, openOrders } from "#shared/kitchen/mixing/icing-needed.ts";
import { ownRecipes, scaledTo } from "#shared/kitchen/mixing/recipes.ts";
import type { IcingMix, IcingToMix, MixRow } from "#shared/kitchen/mixing/icing-needed.ts";
import { Batches, FinishedBatches, MixedSheet } from "./batches.tsx";
import { Allergens, Cautions } from "#phone/heat/cautions.tsx";
import { Select } from "#phone/ui/fields.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { amountText } from "./recipe-amount.ts";
import { StirIn } from "./stir-in.tsx";
import { MIN_MS } from "#shared/time.ts";

const ALL = "";

/** How much of each icing and consistency is still to mix, of one order or of all; on paper too. */
export function IcingScreen(props: { orderId: string | undefined }) {
  const { board, go, print, words } = usePhone();
  const text = () => words().icing;
  const minuteMs = createMemo(() => Math.floor(board.nowMs() / MIN_MS) * MIN_MS);
  const orders = createMemo(() => openOrders(board.kitchen(), minuteMs()));
  const toMix = createMemo(() => icingToMix(board.kitchen(), minuteMs(), props.orderId));
  const choices = createMemo(() => {
    const open = orders().map(({ order }) => order);
    const own = board.kitchen().orders[props.orderId ?? ALL];
    const all = own === undefined || open.includes(own) ? open : [own, ...open];
    return [{ value: ALL, name: text().allOrders }, ...all.map(({ id, name }) => ({ value: id, name }))];
  });
  /** What a batch is being written down of: its row may go meanwhile, when somebody lays the last layer that needs it. */
  const [mixing, setMixing] = createSignal<Mixing>();
  return (
    <main class="icing-sheet">
      <h1>
        {text().title}
        <span class="for-print"> · {board.kitchen().settings.name}</span>
      </h1>
      <AsOf orderId={props.orderId} />
      <Show when={orders().length > 1 || props.orderId !== undefined}>
        <div class="not-print">
          <Select
            label={text().of}
            value={props.orderId ?? ALL}
            options={choices()}
            onChange={(orderId) => go(orderId === ALL ? "icing" : `icing/${orderId}`)}
          />
        </div>
      </Show>
      <Show when={toMix().mixes.length > 0} fallback={<Nothing toMix={toMix()} orderId={props.orderId} />}>
        <MixTable mixes={toMix().mixes} onMixed={setMixing} />
        <Base toMix={toMix()} />
      </Show>
      <Show when={props.orderId === undefined}>
        <AlsoMixed mixes={toMix().mixes} />
        <FinishedBatches />
      </Show>
      <Notes toMix={toMix()} />
      <Show when={toMix().mixes.length > 0 && print}>
        {(print) => (
          <button type="button" class="plain wide not-print" onClick={() => print()()}>
            {text().print}
          </button>
        )}
      </Show>
      <a class="plain wide not-print" href="#/recipes">
        {words().app.titles.recipes}
      </a>
      <StirIn />
      <Cautions card="eggs" />
      <Allergens />
      <Show when={mixing()}>
        {(mixing) => <MixedSheet {...mixing()} onClose={() => setMixing(undefined)} />}
      </Show>
    </main>
  );
}

interface Mixing {
  kind: Kind;
  mixG: number;
}

/** Of when the figures are: on paper, and wherever they are no longer live. */
function AsOf(props: { orderId: string | undefined }) {
  const { board, words } = usePhone();
  const isLive = (): boolean => board.connection().is === "live";
  const order = (): string | undefined => board.kitchen().orders[props.orderId ?? ALL]?.name;
  const atMs = (): number => (isLive() ? undefined : board.heardAtMs()) ?? board.nowMs();
  return (
    <p class="note" classList={{ "for-print": isLive() }}>
      {words().icing.asOf(order(), atMs(), isLive())}
    </p>
  );
}

function Nothing(props: { toMix: IcingToMix; orderId: string | undefined }) {
  const { board, words } = usePhone();
  const why = (): string => {
    const { nothing } = words().icing;
    const { orders } = board.kitchen();
    if (props.toMix.orders.length > 0) return nothing["no-trays"];
    if (props.orderId !== undefined && orders[props.orderId] === undefined) return words().orders.gone;
    return nothing[Object.keys(orders).length === 0 ? "no-orders" : "all-laid"];
  };
  return <p class="empty">{why()}</p>;
}

/** Every icing with its consistencies: what to mix, and of how much base and water. */
function MixTable(props: { mixes: readonly IcingMix[]; onMixed: (mixing: Mixing) => void }) {
  const { words } = usePhone();
  const columns = () => words().icing.columns;
  return (
    <section class="card mix">
      <table>
        <thead>
          <tr>
            <td />
            <th scope="col">{columns().mix}</th>
            <th scope="col">{columns().base}</th>
            <th scope="col">{columns().water}</th>
          </tr>
        </thead>
        <KeyedFor each={props.mixes} by={({ icingId }) => icingId}>
          {(mix) => <Mix mix={mix()} onMixed={props.onMixed} />}
        </KeyedFor>
      </table>
    </section>
  );
}

function Mix(props: { mix: IcingMix; onMixed: (mixing: Mixing) => void }) {
  const { words } = usePhone();
  return (
    <tbody>
      <tr class="icing">
        <th scope="rowgroup" colspan="4">
          <span class="swatch" style={{ background: props.mix.hex }} aria-hidden="true" />
          <span>{words().format.sentence(props.mix.name)}</span>
        </th>
      </tr>
      <KeyedFor each={props.mix.rows} by={({ consistency }) => consistency}>
        {(row) => <Row icingId={props.mix.icingId} row={row()} onMixed={props.onMixed} />}
      </KeyedFor>
      <Show when={props.mix.rows.length > 1}>
        <tr>
          <th scope="row" colspan="2">
            {words().icing.baseInAll}
          </th>
          <td data-what="base">{words().format.mass(props.mix.baseG)}</td>
          <td />
        </tr>
      </Show>
    </tbody>
  );
}

/** Batches of what no layer is still to be laid with. */
function AlsoMixed(props: { mixes: readonly IcingMix[] }) {
  const { board, words } = usePhone();
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
      <section class="card mix">
        <h2>{words().icing.mixedToo}</h2>
        <Batches batches={others()} isNamed />
      </section>
    </Show>
  );
}

function Row(props: { icingId: string; row: MixRow; onMixed: (mixing: Mixing) => void }) {
  const { board, words } = usePhone();
  const text = () => words().icing;
  const format = () => words().format;
  const kind = (): Kind => ({ icingId: props.icingId, consistency: props.row.consistency });
  const batches = createMemo(() => batchesOf(board.kitchen(), kind()));
  return (
    <>
      <tr>
        <th scope="row">
          <span class="tick-box for-print" aria-hidden="true" />
          {words().terms.consistencies[props.row.consistency]}
        </th>
        <td data-what="mix">
          <strong>{format().mass(props.row.mixG)}</strong>
          <Show when={format().units === "us"}>
            <small>{format().volume(props.row.mixMl)}</small>
          </Show>
        </td>
        <td data-what="base">{format().mass(props.row.baseG)}</td>
        <td data-what="water">
          {props.row.waterG === 0 ? text().noWater : format().mass(props.row.waterG)}
          <Show when={format().spoons(props.row.waterG)}>{(spoons) => <small>{spoons()}</small>}</Show>
        </td>
      </tr>
      <tr class="need">
        <td colspan="4">
          <div class="need-line">
            <span>{text().need(props.row, inDateG(batches(), board.nowMs()))}</span>
            <button
              type="button"
              class="small not-print"
              aria-label={text().mixedWhich(props.row.consistency)}
              onClick={() => props.onMixed({ kind: kind(), mixG: props.row.mixG })}
            >
              {text().mixed}
            </button>
          </div>
          <Batches batches={batches()} />
        </td>
      </tr>
    </>
  );
}

/** The base of all colours together, and what to make it from. */
function Base(props: { toMix: IcingToMix }) {
  const { board, words } = usePhone();
  const text = () => words().icing;
  const own = createMemo(() => ownRecipes(board.kitchen(), props.toMix.mixes));
  const recipes = createMemo(() => baseRecipes(own().without));
  return (
    <section class="card mix base">
      <h2>{text().base(props.toMix.baseG)}</h2>
      <dl>
        <For each={own().toMake}>
          {({ recipe, icings, massG }) => (
            <>
              <dt>{words().trace.recipes.forIcings(recipe.name, icings, massG)}</dt>
              <dd>
                {scaledTo(recipe, massG)
                  .map((part) => `${part.name} ${amountText(words().format, part)}`)
                  .join(", ")}
              </dd>
            </>
          )}
        </For>
      </dl>
      <Show when={recipes().length > 0}>
        <details>
          <summary>{own().toMake.length > 0 ? words().trace.recipes.usualForRest : text().recipes}</summary>
          <dl>
            <For each={recipes()}>
              {(recipe) => (
                <>
                  <dt>{text().recipeNames[recipe.name]}</dt>
                  <dd>{text().recipe(recipe)}</dd>
                </>
              )}
            </For>
          </dl>
          <p class="note">{text().ownRecipe}</p>
        </details>
      </Show>
    </section>
  );
}

function Notes(props: { toMix: IcingToMix }) {
  const { words, isLead } = usePhone();
  return (
    <>
      <For each={words().icing.notes(props.toMix)}>{(line) => <p class="note">{line}</p>}</For>
      <Show when={props.toMix.guessed.length > 0 && isLead()}>
        <a class="plain wide not-print" href="#/designs">
          {words().icing.giveAreas}
        </a>
      </Show>
    </>
  );
}
