import { Show } from "solid-js";
import type { Layer } from "#shared/kitchen/model/vocabulary.ts";
import { waitsOf } from "#shared/kitchen/tray/layer-waits.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { LayerFields } from "./layer-fields.tsx";
import type { LayerProps } from "./layer-props.ts";

/** A layer in one line, which unfolds to its fields. */
export function LayerLine(props: LayerProps & { isOpen: boolean; onOpen: (isOpen: boolean) => void }) {
  const { board, words } = usePhone();
  const text = () => words().designs;
  const icing = () => board.kitchen().icings[props.draft.icingId];
  const kind = (): string => text().consistencies[props.draft.consistency].name;
  const coloured = (): string => words().format.name(icing()?.name ?? text().icing);
  const covers = (): string => {
    const { areas = [], lines = [] } = props.draft.covers ?? {};
    return text().covers(areas.length, lines.length);
  };
  const span = (): string | undefined => {
    const mm = props.draft.narrowestMm;
    if (mm === undefined) return undefined;
    const isLine = props.draft.covers?.areas.length === 0 && props.draft.covers.lines.length > 0;
    return isLine ? text().lineWide(mm) : text().narrowestIs(mm);
  };
  const facts = (): string => [covers(), span()].filter((one) => one !== undefined && one !== "").join(" · ");
  const waits = (): string =>
    text().waits(waitsOf(board.kitchen(), { layers: props.layers as Layer[] }, props.layer));
  return (
    <details
      class="card design-layer"
      open={props.isOpen}
      onToggle={(event) => props.onOpen(event.currentTarget.open)}
    >
      <summary>
        <span class="swatch" style={{ background: icing()?.hex ?? "none" }} aria-hidden="true" />
        <span class="words">
          <span class="layer-kind">
            <b>{props.draft.name.trim() === "" ? kind() : props.draft.name}</b>
            {` · ${props.draft.name === kind() ? "" : `${kind()}, `}${coloured()}`}
          </span>
          <span>{facts()}</span>
          <Show when={props.layer > 0}>
            <span>{waits()}</span>
          </Show>
        </span>
      </summary>
      <LayerFields {...props} isOpen={props.isOpen} />
    </details>
  );
}
