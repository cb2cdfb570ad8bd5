import { For } from "solid-js";
import { useFirstWords } from "#shared/client/screen/language.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";

/** A tray's layers as segments: laid solid, in hand striped, still to come pale; told in words to a screen reader. */
export function LayerBar(props: { tray: Tray; design: Design }) {
  const inHand = (): number | undefined => {
    const { status } = props.tray;
    if (status.stage === "flooding") return status.layer;
    return status.stage === "heat-set" ? status.heat.layer : undefined;
  };
  const stateOf = (layer: number): "in hand" | "laid" | "to come" => {
    if (layer === inHand()) return "in hand";
    return layer < props.tray.films.length ? "laid" : "to come";
  };
  const words = useFirstWords();
  return (
    <div
      class="layers"
      role="img"
      aria-label={words().trays.layersLaid(props.tray.films.length, props.design.layers.length)}
    >
      <For each={props.design.layers}>{(_, layer) => <span data-state={stateOf(layer())} />}</For>
    </div>
  );
}
