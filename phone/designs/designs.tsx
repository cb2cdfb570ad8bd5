import { For } from "solid-js";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";
import { icingWords } from "#shared/words/wording.ts";
import { formatLength } from "#shared/units.ts";
import { DesignForm } from "./design-form.tsx";
import { waitWords } from "./design-words.ts";
import { EditorList } from "#phone/ui/editor-list.tsx";
import { usePhone } from "#phone/app/phone.tsx";

/** The kitchen's designs, each with its layers in order and what they wait for. */
export function Designs() {
  const { board } = usePhone();
  const hasIcing = (): boolean => Object.keys(board.kitchen().icings).length > 0;
  return (
    <EditorList
      items={board.kitchen().designs}
      none="No designs yet."
      add="Add a design"
      notYet={hasIcing() ? undefined : "A design needs an icing first: add one under Icings."}
      line={(design) => <DesignWords design={design} />}
      form={(design, done) => <DesignForm design={design()} onDone={done} />}
    />
  );
}

function DesignWords(props: { design: Design }) {
  const { board, units } = usePhone();
  return (
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
  );
}
