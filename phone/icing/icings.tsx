import { For, createSignal } from "solid-js";
import { asId } from "#shared/ids.ts";
import type { IcingId } from "#shared/ids.ts";
import { Consistency } from "#shared/kitchen/model/vocabulary.ts";
import type { Icing } from "#shared/kitchen/model/vocabulary.ts";
import { EditorList } from "#phone/ui/editor-list.tsx";
import { TextField } from "#phone/ui/fields.tsx";
import { NumberField } from "#phone/ui/number-field.tsx";
import { Form } from "#phone/ui/form.tsx";
import { mergeChanges } from "#phone/ui/merge.ts";
import { usePhone } from "#phone/app/phone.tsx";

/** The kitchen's colours; a lead adds and changes them. */
export function Icings() {
  const { board } = usePhone();
  return (
    <EditorList
      items={board.kitchen().icings}
      none="No icings yet."
      add="Add an icing"
      line={(icing) => (
        <>
          <span class="swatch" style={{ background: icing.hex }} aria-hidden="true" />
          <span class="words">
            <strong>{icing.name}</strong>
          </span>
        </>
      )}
      form={(icing, done) => <IcingForm icing={icing()} onDone={done} />}
    />
  );
}

function IcingForm(props: { icing: Icing | undefined; onDone: () => void }) {
  const { act, newId, board } = usePhone();
  const [name, setName] = createSignal(props.icing?.name ?? "");
  const [hex, setHex] = createSignal(props.icing?.hex ?? "#f2e3b6");
  const [water, setWater] = createSignal<NonNullable<Icing["waterPct"]>>(props.icing?.waterPct ?? {});
  const id = props.icing?.id ?? asId<IcingId>(newId());
  const written = (): Icing => ({
    id,
    name: name(),
    hex: hex(),
    ...(Object.values(water()).every((pct) => pct === undefined) ? {} : { waterPct: water() }),
  });
  const opened = written();
  const save = (): void => {
    const icing = props.icing === undefined ? written() : mergeChanges(props.icing, opened, written());
    if (act({ type: "put-icing", icing }, `${name().trim()} saved`)) props.onDone();
  };
  function remove(): void {
    const { icing } = props;
    if (icing !== undefined && act({ type: "remove-icing", icingId: icing.id }, `${icing.name} removed`))
      props.onDone();
  }
  return (
    <Form
      onSave={save}
      onRemove={props.icing === undefined ? undefined : remove}
      onLeave={() => props.onDone()}
    >
      <TextField label="Icing's name" value={name()} onInput={setName} maxLength={40} />
      <TextField label="Colour" type="color" value={hex()} onInput={setHex} />
      <details>
        <summary>Water, where it differs from the kitchen's</summary>
        <For each={Consistency.options}>
          {(consistency) => (
            <NumberField
              label={`Water for ${consistency}`}
              value={water()[consistency]}
              min={8}
              max={35}
              unit="%"
              optional
              hint={`The kitchen's: ${board.kitchen().settings.waterPct[consistency]} %`}
              onChange={(pct) => setWater((now) => ({ ...now, [consistency]: pct }))}
            />
          )}
        </For>
      </details>
    </Form>
  );
}
