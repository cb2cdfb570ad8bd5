import { For, Show, createMemo, createSignal } from "solid-js";
import type { Design } from "#shared/kitchen/vocabulary.ts";
import { icingWords } from "#shared/kitchen/wording.ts";
import { formatLength } from "#shared/units.ts";
import { DesignForm } from "./design-form.tsx";
import { waitWords } from "./design-words.ts";
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
