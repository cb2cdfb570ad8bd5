import { For, Show, createMemo } from "solid-js";
import { Cookie } from "#shared/client/cookie/cookie.tsx";
import { currentDesigns } from "#shared/kitchen/model/lookups.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";
import { finishedCookie } from "#shared/kitchen/tray/cookie-picture.ts";
import { layersOf } from "#shared/kitchen/tray/layer-waits.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { DesignForm } from "./design-form.tsx";
import { designSize } from "./designs.tsx";
import { NewDesign } from "./new-design.tsx";

/** One design: its form for a lead, what it is for all others. */
export function DesignScreen(props: { id: string }) {
  const { board, go, isLead, words } = usePhone();
  const design = createMemo(() => currentDesigns(board.kitchen())[props.id]);
  return (
    <main>
      <Show when={design()} fallback={<p class="empty">{words().designs.gone}</p>}>
        {(design) => (
          <Show when={isLead()} fallback={<DesignRead design={design()} />}>
            <Show when={props.id} keyed>
              <DesignForm design={design()} onDone={() => go("designs")} />
            </Show>
          </Show>
        )}
      </Show>
    </main>
  );
}

export function NewDesignScreen() {
  const { go } = usePhone();
  return (
    <main>
      <NewDesign onDone={(id) => go(id === undefined ? "designs" : `designs/${encodeURIComponent(id)}`)} />
    </main>
  );
}

function DesignRead(props: { design: Design }) {
  const { board, words } = usePhone();
  return (
    <>
      <Cookie class="design-picture" point={finishedCookie(props.design)} icings={board.kitchen().icings} />
      <h1 class="design-title">
        {words().format.name(props.design.name)} <small>{designSize(words, props.design)}</small>
      </h1>
      <Show when={props.design.isArchived === true}>
        <p class="note">{words().designs.isArchived}</p>
      </Show>
      <ul class="cards">
        <For each={layersOf(board.kitchen(), props.design)}>
          {(layer) => <li class="card">{words().designs.layer(layer)}</li>}
        </For>
      </ul>
    </>
  );
}
