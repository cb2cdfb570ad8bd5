import { For, Show, createMemo } from "solid-js";
import { Cookie } from "#shared/client/cookie/cookie.tsx";
import { finishedCookie } from "#shared/kitchen/tray/cookie-picture.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";
import { currentDesigns } from "#shared/kitchen/model/lookups.ts";
import { layersOf } from "#shared/kitchen/tray/layer-waits.ts";
import { DesignForm } from "./design-form.tsx";
import { EditorList } from "#phone/ui/editor-list.tsx";
import { usePhone } from "#phone/app/phone.tsx";

/** The kitchen's designs, each with its layers in order and what they wait for. */
export function Designs() {
  const { board, words } = usePhone();
  const hasIcing = (): boolean => Object.keys(board.kitchen().icings).length > 0;
  return (
    <EditorList
      items={currentDesigns(board.kitchen())}
      path="designs"
      none={words().designs.none}
      add={words().designs.add}
      notYet={hasIcing() ? undefined : words().designs.needsIcing}
      line={(design) => <DesignWords design={design} />}
      form={(design, done) => <DesignForm design={design()} onDone={done} />}
    />
  );
}

function DesignWords(props: { design: Design }) {
  const { board, words } = usePhone();
  return (
    <span class="words">
      <strong>{words().designs.title(props.design.name, props.design.sizeMm)}</strong>
      <For each={layersOf(board.kitchen(), props.design)}>
        {(layer) => <span>{words().designs.layer(layer)}</span>}
      </For>
    </span>
  );
}

/** One design by itself. */
export function DesignScreen(props: { id: string }) {
  const { board, isLead, go, words } = usePhone();
  const design = createMemo(() => board.kitchen().designs[props.id]);
  return (
    <main>
      <Show when={design()} fallback={<p class="empty">{words().desk.gone}</p>}>
        {(design) => (
          <>
            <h1>{design().name}</h1>
            <Cookie class="large-cookie" point={finishedCookie(design())} icings={board.kitchen().icings} />
            <Show when={isLead()} fallback={<DesignWords design={design()} />}>
              <Show when={props.id} keyed>
                {(_id) => <DesignForm design={design()} onDone={() => go("designs")} />}
              </Show>
            </Show>
          </>
        )}
      </Show>
    </main>
  );
}
