import { For, Show, createMemo, createSignal } from "solid-js";
import { asId } from "#shared/ids.ts";
import type { IcingId } from "#shared/ids.ts";
import { Consistency } from "#shared/kitchen/vocabulary.ts";
import type { Icing } from "#shared/kitchen/vocabulary.ts";
import { NumberField, TextField } from "./fields.tsx";
import { FormFoot } from "./form-foot.tsx";
import { usePhone } from "./phone.tsx";

/** The kitchen's colours; a lead adds and changes them. */
export function Icings() {
  const { board, isLead } = usePhone();
  const [openId, setOpenId] = createSignal<string>();
  const icings = createMemo(() =>
    Object.values(board.kitchen().icings).toSorted((a, b) => a.name.localeCompare(b.name)),
  );
  const done = (): void => setOpenId(undefined);
  return (
    <section class="editor">
      <ul class="cards">
        <For each={icings()} fallback={<li class="quiet">No icings yet.</li>}>
          {(icing) => (
            <li>
              <Show
                when={openId() === icing.id}
                fallback={<IcingLine icing={icing} onOpen={() => isLead() && setOpenId(icing.id)} />}
              >
                <IcingForm icing={icing} onDone={done} />
              </Show>
            </li>
          )}
        </For>
      </ul>
      <Show when={isLead()}>
        <Show
          when={openId() === "new"}
          fallback={
            <button type="button" class="plain wide" onClick={() => setOpenId("new")}>
              Add an icing
            </button>
          }
        >
          <IcingForm onDone={done} />
        </Show>
      </Show>
    </section>
  );
}

function IcingLine(props: { icing: Icing; onOpen: () => void }) {
  return (
    <button type="button" class="line-card" onClick={() => props.onOpen()}>
      <span class="swatch" style={{ background: props.icing.hex }} aria-hidden="true" />
      <span class="words">
        <strong>{props.icing.name}</strong>
      </span>
    </button>
  );
}

function IcingForm(props: { icing?: Icing; onDone: () => void }) {
  const { act, newId, board } = usePhone();
  const [name, setName] = createSignal(props.icing?.name ?? "");
  const [hex, setHex] = createSignal(props.icing?.hex ?? "#f2e3b6");
  const [water, setWater] = createSignal<NonNullable<Icing["waterPct"]>>(props.icing?.waterPct ?? {});
  const save = (): void => {
    const icing: Icing = {
      id: props.icing?.id ?? asId<IcingId>(newId()),
      name: name(),
      hex: hex(),
      ...(Object.values(water()).every((pct) => pct === undefined) ? {} : { waterPct: water() }),
    };
    if (act({ type: "put-icing", icing }, `${name().trim()} saved`)) props.onDone();
  };
  function remove(): void {
    const { icing } = props;
    if (icing !== undefined && act({ type: "remove-icing", icingId: icing.id }, `${icing.name} removed`))
      props.onDone();
  }
  return (
    <form
      class="form"
      onSubmit={(event) => {
        event.preventDefault();
        save();
      }}
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
      <FormFoot onRemove={props.icing === undefined ? undefined : remove} onDone={() => props.onDone()} />
    </form>
  );
}
