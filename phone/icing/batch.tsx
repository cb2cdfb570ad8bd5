import { For, Show, createMemo, createSignal } from "solid-js";
import { alike } from "#shared/client/screen/alike.ts";
import { own } from "#shared/collections.ts";
import { nameOf } from "#shared/kitchen/mixing/batches.ts";
import { ordersFrom } from "#shared/kitchen/mixing/batch-trace.ts";
import { batchOf } from "#shared/kitchen/model/lookups.ts";
import type { BatchState, UsedBatch } from "#shared/kitchen/model/state.ts";
import { WrongWhy } from "#shared/kitchen/model/vocabulary.ts";
import { Gone } from "#phone/ui/page.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { TextField } from "#phone/ui/fields.tsx";
import { Form } from "#phone/ui/form.tsx";
import { Sheet } from "#phone/ui/sheet.tsx";

/** One batch: what it is, what was laid from it, and whether something was wrong with it. */
export function BatchScreen(props: { id: string }) {
  const { board, words } = usePhone();
  const batch = createMemo(() => batchOf(board.kitchen(), props.id));
  return (
    <main>
      <Show when={batch()} fallback={<Gone text={words().trace.gone} />}>
        {(batch) => <BatchBody batch={batch()} />}
      </Show>
    </main>
  );
}

function BatchBody(props: { batch: BatchState | UsedBatch }) {
  const { board, act, words } = usePhone();
  const text = () => words().trace;
  const [isJudging, setJudging] = createSignal(false);
  const of = () => nameOf(board.kitchen(), props.batch);
  const judge = (wrong: string | null): boolean =>
    act(
      { type: "judge-batch", batchId: props.batch.id, wrong },
      wrong === null ? text().saidRight(of()) : text().saidWrong(of()),
    );
  return (
    <>
      <h1>
        <span
          class="swatch in-line"
          style={{ background: board.kitchen().icings[props.batch.icingId]?.hex }}
          aria-hidden="true"
        />
        {words().format.sentence(words().icing.kind(of()))}
      </h1>
      <BatchFacts batch={props.batch} />
      <h2>{text().laid}</h2>
      <LaidFrom batchId={props.batch.id} />
      <button type="button" class="plain wide" onClick={() => setJudging(true)}>
        {props.batch.wrong === undefined ? text().wrong : text().changeWrong}
      </button>
      <Show when={props.batch.wrong}>
        <button type="button" class="plain wide" onClick={() => judge(null)}>
          {text().notWrong}
        </button>
      </Show>
      <Show when={isJudging()}>
        <WrongSheet
          title={text().whatWrong(of())}
          why={props.batch.wrong?.why ?? ""}
          onSay={judge}
          onClose={() => setJudging(false)}
        />
      </Show>
    </>
  );
}

function BatchFacts(props: { batch: BatchState | UsedBatch }) {
  const { board, words } = usePhone();
  const text = () => words().trace;
  const who = (by: string): string | undefined => board.kitchen().people[by]?.name;
  const recipe = () => own(board.kitchen().recipes ?? {}, props.batch.recipeId ?? "");
  return (
    <div class="order-facts">
      <Show when={props.batch.wrong}>
        {(wrong) => (
          <p class="batch-wrong">
            <strong>{text().wrongWhy(wrong().why)}</strong>
            <small>{text().saidBy(who(wrong().by), wrong().atMs, board.nowMs())}</small>
          </p>
        )}
      </Show>
      <span>
        {words().icing.batch(props.batch, undefined, board.nowMs())} · {text().by(who(props.batch.by))}
      </span>
      <Show when={"goneAtMs" in props.batch && props.batch.goneAtMs}>
        {(atMs) => <span>{text().usedUp(atMs(), board.nowMs())}</span>}
      </Show>
      <Show when={recipe()}>
        {(recipe) => <a href={`#/recipes/${recipe().id}`}>{text().madeBy(recipe().name)}</a>}
      </Show>
      <span>
        {props.batch.allergens === undefined ? text().noAllergens : text().allergens(props.batch.allergens)}
      </span>
    </div>
  );
}

/** Its layers by order, with the way to each tray and order that is still on the board. */
function LaidFrom(props: { batchId: string }) {
  const { board, words } = usePhone();
  const text = () => words().trace;
  const orders = createMemo(() => ordersFrom(board.kitchen(), props.batchId), undefined, alike);
  return (
    <ul class="cards">
      <For each={orders()} fallback={<li class="quiet">{text().noneLaid}</li>}>
        {(of) => (
          <li class="card laid-from">
            <Show
              when={of.isOpen}
              fallback={
                <strong>
                  {of.order} <small>{text().orderGone}</small>
                </strong>
              }
            >
              <a href={`#/orders/${of.orderId}`}>
                <strong>{of.order}</strong>
              </a>
            </Show>
            <For each={of.parts}>
              {(part) => (
                <>
                  <span>{text().laidPart(part)}</span>
                  <ul class="numbers">
                    <For each={part.layers}>
                      {({ tray, is }) => (
                        <li>
                          <Show when={is === "on the board"} fallback={`${tray} ${text().trayIs[is]}`}>
                            <a href={`#/t/${tray}`} aria-label={words().app.titles.tray(String(tray))}>
                              {tray}
                            </a>
                          </Show>
                        </li>
                      )}
                    </For>
                  </ul>
                </>
              )}
            </For>
          </li>
        )}
      </For>
    </ul>
  );
}

function WrongSheet(props: {
  title: string;
  why: string;
  onSay: (why: string) => boolean;
  onClose: () => void;
}) {
  const { words } = usePhone();
  const [why, setWhy] = createSignal(props.why);
  return (
    <Sheet title={props.title} onClose={props.onClose}>
      <Form
        isBare
        save={words().trace.say}
        onSave={() => {
          if (props.onSay(why().trim())) props.onClose();
        }}
        onLeave={() => props.onClose()}
      >
        <TextField
          label={words().trace.why}
          value={why()}
          schema={WrongWhy}
          hint={words().trace.whyHint}
          onInput={setWhy}
        />
      </Form>
    </Sheet>
  );
}
