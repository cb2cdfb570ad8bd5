import { For, Show, createMemo, createSignal } from "solid-js";
import { KeyedFor } from "#shared/client/screen/keyed-for.tsx";
import { rangeOf } from "#shared/fields.ts";
import { asId, type BatchId, type IcingId } from "#shared/ids.ts";
import { LONGEST_USE_MS, type Kind, isPast, nameOf } from "#shared/kitchen/mixing/batches.ts";
import { recipeFacts, recipeOf } from "#shared/kitchen/mixing/recipes.ts";
import type { BatchState } from "#shared/kitchen/model/state.ts";
import { MixedBatch } from "#shared/kitchen/model/vocabulary.ts";
import { DAY_MS, HOUR_MS } from "#shared/time.ts";
import { TextField } from "#phone/ui/fields.tsx";
import { NumberField } from "#phone/ui/number-field.tsx";
import { Form, type Fault } from "#phone/ui/form.tsx";
import { fromLocalInput, toLocalInput } from "#phone/ui/local-time.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { Sheet } from "#phone/ui/sheet.tsx";

/** Batches that are mixed, each to be said used up; with its icing's name where nothing around it says that. */
export function Batches(props: { batches: readonly BatchState[]; isNamed?: boolean }) {
  return (
    <Show when={props.batches.length > 0}>
      <ul class="batches">
        <KeyedFor each={props.batches} by={({ id }) => id}>
          {(batch) => <BatchLine batch={batch()} isNamed={props.isNamed === true} />}
        </KeyedFor>
      </ul>
    </Show>
  );
}

/** Batches used up or thrown away lately: their trays can still be traced. */
export function FinishedBatches() {
  const { board, words } = usePhone();
  const batches = createMemo(() =>
    Object.values(board.kitchen().usedBatches ?? {})
      .toSorted((a, b) => b.goneAtMs - a.goneAtMs)
      .slice(0, FINISHED_SHOWN),
  );
  return (
    <Show when={batches().length > 0}>
      <details class="finished not-print">
        <summary>{words().trace.usedLately}</summary>
        <ul class="plain-list">
          <For each={batches()}>
            {(batch) => (
              <li>
                <a href={`#/batch/${batch.id}`}>
                  {words().icing.batch(batch, nameOf(board.kitchen(), batch), board.nowMs())}
                </a>
                <Show when={batch.wrong}>
                  {(wrong) => <strong> {words().trace.wrongWhy(wrong().why)}</strong>}
                </Show>
              </li>
            )}
          </For>
        </ul>
      </details>
    </Show>
  );
}
const FINISHED_SHOWN = 30;

function BatchLine(props: { batch: BatchState; isNamed: boolean }) {
  const { board, act, words } = usePhone();
  const text = () => words().icing;
  const isOld = (): boolean => isPast(props.batch, board.nowMs());
  const named = () => nameOf(board.kitchen(), props.batch);
  return (
    <li data-past={isOld()}>
      <span>
        <Show when={isOld()}>
          <strong>{text().past}</strong>
        </Show>
        <Show when={props.batch.wrong}>
          {(wrong) => <strong>{words().trace.wrongWhy(wrong().why)}</strong>}
        </Show>
        <a href={`#/batch/${props.batch.id}`}>
          {text().batch(props.batch, props.isNamed ? named() : undefined, board.nowMs())}
        </a>
      </span>
      <button
        type="button"
        class="small not-print"
        aria-label={text().finishWhich(named())}
        onClick={() => act({ type: "finish-batch", batchId: props.batch.id }, text().finished(named()))}
      >
        {text().finish}
      </button>
    </li>
  );
}

/** Icing that was just mixed: how much, and until when this kitchen uses it. */
export function MixedSheet(props: { kind: Kind; mixG: number; onClose: () => void }) {
  const { board, act, zone, newId, isLead, words } = usePhone();
  const text = () => words().icing.form;
  const mixedAtMs = board.nowMs();
  const hours = board.kitchen().settings.icingUseH ?? undefined;
  const named = nameOf(board.kitchen(), props.kind);
  const recipe = () => recipeOf(board.kitchen(), props.kind.icingId);
  /** Undefined: not weighed. */
  const [massG, setMassG] = createSignal<number | undefined>(Math.max(1, Math.round(props.mixG)));
  const [closesS, setClosesS] = createSignal<number>();
  const [useBy, setUseBy] = createSignal(
    hours === undefined ? "" : toLocalInput(mixedAtMs + hours * HOUR_MS, zone()),
  );
  const [isUsual, setUsual] = createSignal(false);
  const [fault, setFault] = createSignal<Fault>();
  /** The hours from mixing to the use-by that is written, where a lead may make them the kitchen's own. */
  const usualH = (): number | undefined => {
    const useByAtMs = fromLocalInput(useBy(), zone());
    if (hours !== undefined || !isLead() || useByAtMs === undefined) return undefined;
    const given = Math.round((useByAtMs - mixedAtMs) / HOUR_MS);
    return given >= 1 && given * HOUR_MS <= LONGEST_USE_MS ? given : undefined;
  };
  function save(): void {
    const refuse = (message: string): void => void setFault({ message, field: text().useBy });
    const [mass, closes, useByAtMs] = [massG(), closesS(), fromLocalInput(useBy(), zone())];
    if (useByAtMs === undefined) return refuse(text().noUseBy);
    if (useByAtMs <= mixedAtMs || useByAtMs > mixedAtMs + LONGEST_USE_MS)
      return refuse(text().useByRange(LONGEST_USE_MS / DAY_MS));
    const batch = {
      id: asId<BatchId>(newId()),
      icingId: asId<IcingId>(props.kind.icingId),
      consistency: props.kind.consistency,
      mixedAtMs,
      useByAtMs,
      ...(mass === undefined ? {} : { massG: mass }),
      ...(closes === undefined ? {} : { closesS: closes }),
      ...recipeFacts(board.kitchen(), props.kind.icingId),
    };
    const icingUseH = isUsual() ? usualH() : undefined;
    if (icingUseH !== undefined && !act({ type: "set-kitchen", settings: { icingUseH } })) return;
    if (act({ type: "record-batch", batch }, words().icing.recorded(named))) props.onClose();
  }
  return (
    <Sheet title={words().icing.mixedTitle(named)} onClose={props.onClose}>
      <Form fault={fault()} save={words().icing.mixed} onSave={save} onLeave={() => props.onClose()}>
        <NumberField
          label={text().mass}
          value={massG()}
          {...rangeOf(MixedBatch.entries.massG)}
          optional
          hint={text().massHint}
          onChange={setMassG}
        />
        <NumberField
          label={text().closes}
          value={closesS()}
          {...rangeOf(MixedBatch.entries.closesS)}
          optional
          hint={text().closesHint}
          onChange={setClosesS}
        />
        <TextField
          label={text().useBy}
          type="datetime-local"
          value={useBy()}
          onInput={setUseBy}
          hint={text().useByHint(zone(), hours)}
        />
        <Show when={usualH()}>
          {(given) => (
            <label class="tick">
              <input
                type="checkbox"
                checked={isUsual()}
                onChange={(event) => setUsual(event.currentTarget.checked)}
              />
              {text().usual(given())}
            </label>
          )}
        </Show>
        <Show when={recipe()}>
          {(recipe) => <p class="note">{words().trace.recipes.batchBy(recipe().name, recipe().allergens)}</p>}
        </Show>
        <p class="note">{text().notSafe}</p>
      </Form>
    </Sheet>
  );
}
