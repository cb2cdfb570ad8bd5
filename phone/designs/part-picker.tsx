import { For } from "solid-js";
import type { Drawing } from "#shared/drawing/drawing.ts";
import type { Layer } from "#shared/kitchen/model/vocabulary.ts";
import { usePhone } from "#phone/app/phone.tsx";
import type { LayerDraft } from "./design-draft.ts";

type Covers = NonNullable<Layer["covers"]>;
type Kind = keyof Covers;

/** A line is tapped within this of its middle, mm. */
const TAP_MM = 5;

/** The drawing, on which the areas and lines of a layer are tapped, and the same as a list. */
export function PartPicker(props: {
  drawing: Drawing;
  layers: readonly LayerDraft[];
  layer: number;
  onChange: (covers: Covers) => void;
}) {
  const { board, words } = usePhone();
  const text = () => words().designs;
  const covers = (): Covers => props.layers[props.layer]?.covers ?? { areas: [], lines: [] };
  const isCovered = (kind: Kind, id: string): boolean => covers()[kind].includes(id);
  const toggle = (kind: Kind, id: string): void =>
    props.onChange({
      ...covers(),
      [kind]: isCovered(kind, id) ? covers()[kind].filter((one) => one !== id) : [...covers()[kind], id],
    });
  /** The colour of the layer that covers it: this one's, else the last other's. */
  const hexOf = (kind: Kind, id: string): string => {
    const layer = isCovered(kind, id)
      ? props.layers[props.layer]
      : props.layers.findLast((one) => one.covers?.[kind].includes(id));
    return board.kitchen().icings[layer?.icingId ?? ""]?.hex ?? "transparent";
  };
  const nameOf = ({ id, name }: { id: string; name?: string | undefined }): string =>
    name ?? words().drawings.part(id);
  const parts = () => [
    ...props.drawing.areas.map((part) => ({ kind: "areas" as const, id: part.id, name: nameOf(part) })),
    ...props.drawing.lines.map((part) => ({ kind: "lines" as const, id: part.id, name: nameOf(part) })),
  ];
  return (
    <div class="part-picker">
      <p class="note">{text().whatItCovers}</p>
      <svg
        viewBox={`-2 -2 ${props.drawing.widthMm + 4} ${props.drawing.heightMm + 4}`}
        role="img"
        aria-label={text().whatItCovers}
      >
        <path class="biscuit" d={props.drawing.outline} />
        <For each={props.drawing.areas}>
          {(area) => (
            <path
              class="part"
              data-part={area.id}
              data-covered={isCovered("areas", area.id)}
              d={area.d}
              fill={hexOf("areas", area.id)}
              onClick={() => toggle("areas", area.id)}
            />
          )}
        </For>
        <For each={props.drawing.lines}>
          {(line) => (
            <g
              class="part line"
              data-part={line.id}
              data-covered={isCovered("lines", line.id)}
              onClick={() => toggle("lines", line.id)}
            >
              <path class="reach" d={line.d} stroke-width={Math.max(TAP_MM, line.widthMm)} />
              <path class="rim" d={line.d} stroke-width={line.widthMm + 1} />
              <path class="middle" d={line.d} stroke={hexOf("lines", line.id)} stroke-width={line.widthMm} />
            </g>
          )}
        </For>
      </svg>
      <details class="layer-figures">
        <summary>{text().asAList}</summary>
        <For each={parts()}>
          {({ kind, id, name }) => (
            <label class="tick">
              <input type="checkbox" checked={isCovered(kind, id)} onChange={() => toggle(kind, id)} />
              <span>{words().format.sentence(name)}</span>
            </label>
          )}
        </For>
      </details>
    </div>
  );
}
