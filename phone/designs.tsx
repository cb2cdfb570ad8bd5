import { For, Show, createMemo, createSignal } from "solid-js";
import { needsOf } from "#shared/kitchen/route.ts";
import type { Kitchen } from "#shared/kitchen/state.ts";
import type { Design } from "#shared/kitchen/vocabulary.ts";
import { icingWords } from "#shared/kitchen/wording.ts";
import { formatLength } from "#shared/units.ts";
import { DesignForm } from "./design-form.tsx";
import { usePhone } from "./phone.tsx";

/** The kitchen's designs, each with its layers in order and what they wait for. */
export function Designs() {
  const { board, isLead } = usePhone();
  const [openId, setOpenId] = createSignal<string>();
  const designs = createMemo(() =>
    Object.values(board.kitchen().designs).toSorted((a, b) => a.name.localeCompare(b.name)),
  );
  const done = (): void => setOpenId(undefined);
  return (
    <section class="editor">
      <ul class="cards">
        <For each={designs()} fallback={<li class="quiet">No designs yet.</li>}>
          {(design) => (
            <li>
              <Show
                when={openId() === design.id}
                fallback={<DesignLine design={design} onOpen={() => isLead() && setOpenId(design.id)} />}
              >
                <DesignForm design={design} onDone={done} />
              </Show>
            </li>
          )}
        </For>
      </ul>
      <Show when={isLead()}>
        <Show
          when={openId() === "new"}
          fallback={
            <Show
              when={Object.keys(board.kitchen().icings).length > 0}
              fallback={<p class="note">A design needs an icing first: add one under Icings.</p>}
            >
              <button type="button" class="plain wide" onClick={() => setOpenId("new")}>
                Add a design
              </button>
            </Show>
          }
        >
          <DesignForm onDone={done} />
        </Show>
      </Show>
    </section>
  );
}

function DesignLine(props: { design: Design; onOpen: () => void }) {
  const { board, units } = usePhone();
  return (
    <button type="button" class="line-card" onClick={() => props.onOpen()}>
      <span class="words">
        <strong>
          {props.design.name} · {formatLength(props.design.sizeMm, units())}
        </strong>
        <For each={props.design.layers}>
          {(layer, k) => (
            <span>
              {k() + 1}. {icingWords(board.kitchen(), layer)}, {formatLength(layer.thicknessMm, units())}
              {waitWords(board.kitchen(), props.design, k())}
            </span>
          )}
        </For>
      </span>
    </button>
  );
}

/** ": waits for the skin of layer 1 (storm)"; nothing when it may be laid at once. */
export function waitWords(kitchen: Kitchen, design: Pick<Design, "layers">, layer: number): string {
  const waits = needsOf(design as Design, layer)
    .filter(({ need }) => need !== "wet")
    .map(({ layer, need }) => {
      const icing = kitchen.icings[design.layers[layer]?.icingId ?? ""]?.name;
      const which = `layer ${layer + 1}${icing === undefined ? "" : ` (${icing})`}`;
      return need === "skin" ? `the skin of ${which}` : `${which} to dry through`;
    });
  if (layer === 0) return "";
  return waits.length === 0 ? ": laid at once" : `: waits for ${waits.join(", ")}`;
}
