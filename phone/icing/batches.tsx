import { For, Show, createSignal } from "solid-js";
import { asId, type BatchId, type IcingId } from "#shared/ids.ts";
import { LONGEST_USE_MS, type Kind, isPast, kindWords } from "#shared/kitchen/mixing/batches.ts";
import type { BatchState } from "#shared/kitchen/model/state.ts";
import { sentence } from "#shared/words/wording.ts";
import { formatMass } from "#shared/units.ts";
import { TextField } from "#phone/ui/fields.tsx";
import { NumberField } from "#phone/ui/number-field.tsx";
import { Form, type Fault } from "#phone/ui/form.tsx";
import { fromLocalInput, toLocalInput } from "#phone/ui/local-time.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { Sheet } from "#phone/ui/sheet.tsx";
import { sayWhen } from "#phone/ui/when.ts";
import { HOUR_MS } from "#shared/time.ts";

/** Batches that stand, each to be said used up; with its icing's name where nothing around it says that. */
export function Batches(props: { batches: readonly BatchState[]; isNamed?: boolean }) {
  return (
    <Show when={props.batches.length > 0}>
      <ul class="batches">
        <For each={props.batches}>
          {(batch) => <BatchLine batch={batch} isNamed={props.isNamed === true} />}
        </For>
      </ul>
    </Show>
  );
}

function BatchLine(props: { batch: BatchState; isNamed: boolean }) {
  const { board, act, zone } = usePhone();
  const isOld = (): boolean => isPast(props.batch, board.nowMs());
  const at = (atMs: number): string => sayWhen(atMs, zone(), board.nowMs());
  const name = (): string => kindWords(board.kitchen(), props.batch);
  const words = (): string => {
    const { massG, mixedAtMs, useByAtMs } = props.batch;
    const what = [
      ...(props.isNamed ? [name()] : []),
      ...(massG === undefined ? [] : [formatMass(massG)]),
      `mixed ${at(mixedAtMs)}`,
    ].join(" ");
    return `${sentence(what)}, ${isOld() ? "was to be used by" : "use by"} ${at(useByAtMs)}`;
  };
  return (
    <li data-past={isOld()}>
      <span>
        <Show when={isOld()}>
          <strong>Past its use-by</strong>
        </Show>
        {words()}
      </span>
      <button
        type="button"
        class="small not-print"
        aria-label={`${sentence(name())}: used up or thrown away`}
        onClick={() => act({ type: "finish-batch", batchId: props.batch.id }, `${sentence(name())} finished`)}
      >
        Used up / thrown away
      </button>
    </li>
  );
}

/** Icing that was just mixed: how much, and until when this kitchen uses it. */
export function MixedSheet(props: { kind: Kind; mixG: number; onClose: () => void }) {
  const { board, act, zone, newId, isLead } = usePhone();
  const mixedAtMs = board.nowMs();
  const hours = board.kitchen().settings.icingUseH ?? undefined;
  const name = kindWords(board.kitchen(), props.kind);
  /** Null: not weighed. */
  const [massG, setMassG] = createSignal<number | null | undefined>(Math.max(1, Math.round(props.mixG)));
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
    const [mass, useByAtMs] = [massG(), fromLocalInput(useBy(), zone())];
    if (mass === undefined) return void setFault({ message: "The mass must be 1 to 50000 g, or empty." });
    if (useByAtMs === undefined)
      return void setFault({ message: "Use by must be a day and a time.", field: "Use by" });
    if (useByAtMs <= mixedAtMs || useByAtMs > mixedAtMs + LONGEST_USE_MS)
      return void setFault({
        message: "Use by must be after now, and at most 14 days ahead.",
        field: "Use by",
      });
    const batch = {
      id: asId<BatchId>(newId()),
      icingId: asId<IcingId>(props.kind.icingId),
      consistency: props.kind.consistency,
      mixedAtMs,
      useByAtMs,
      ...(mass === null ? {} : { massG: mass }),
    };
    const icingUseH = isUsual() ? usualH() : undefined;
    if (icingUseH !== undefined && !act({ type: "set-kitchen", settings: { icingUseH } })) return;
    if (act({ type: "record-batch", batch }, `${sentence(name)} mixed`)) props.onClose();
  }
  return (
    <Sheet title={`${sentence(name)}, mixed`} onClose={props.onClose}>
      <Form fault={fault()} save="Mixed" onSave={save} onLeave={() => props.onClose()}>
        <NumberField
          label="How much"
          value={massG() ?? undefined}
          min={1}
          max={50_000}
          unit="g"
          optional
          hint="Leave it empty if it was not weighed."
          onChange={(typed, isEmpty) => setMassG(isEmpty ? null : typed)}
        />
        <TextField
          label="Use by"
          type="datetime-local"
          value={useBy()}
          onInput={setUseBy}
          hint={
            hours === undefined
              ? `The kitchen's clock, ${zone()}. A lead can set the usual hours under Room.`
              : `From the kitchen's setting: within ${hours} h. The kitchen's clock, ${zone()}.`
          }
        />
        <Show when={usualH()}>
          {(given) => (
            <label class="tick">
              <input
                type="checkbox"
                checked={isUsual()}
                onChange={(event) => setUsual(event.currentTarget.checked)}
              />
              {given()} h after mixing, for every batch from now on
            </label>
          )}
        </Show>
        <p class="note">
          How long icing may be used is for your kitchen's plan and local codes to say. Nothing here declares
          it safe.
        </p>
      </Form>
    </Sheet>
  );
}
