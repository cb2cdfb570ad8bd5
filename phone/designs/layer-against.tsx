import { Index, Show } from "solid-js";
import { type Layer, Need } from "#shared/kitchen/model/vocabulary.ts";
import { waitsOf } from "#shared/kitchen/tray/layer-waits.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { Select } from "#phone/ui/fields.tsx";
import type { LayerProps } from "./layer-props.ts";

const CHOICES = ["usual", ...Need.options, "apart"] as const;

/** What a layer waits for in words; and for each earlier layer, whether it lies against it and what it then waits for. */
export function LayerAgainst(props: LayerProps) {
  const { board, words } = usePhone();
  const text = () => words().designs;
  const earlier = () => props.layers.slice(0, props.layer);
  const touches = (): number[] => props.draft.touches ?? earlier().map((_, k) => k);
  const isTyped = (): boolean => props.draft.typed?.includes("touches") === true;
  const isMeasured = (): boolean => props.measured !== undefined && props.draft.covers !== undefined;
  const choiceOf = (k: number): string =>
    touches().includes(k) ? (props.draft.waits?.find(({ layer }) => layer === k)?.need ?? "usual") : "apart";
  function choose(k: number, chosen: string): void {
    const others = (props.draft.waits ?? []).filter(({ layer }) => layer !== k);
    const need = Need.options.find((one) => one === chosen);
    const apart = touches().filter((one) => one !== k);
    const isApart = chosen === "apart";
    const isOther = isApart === touches().includes(k);
    const typed = [...(props.draft.typed ?? []).filter((one) => one !== "touches"), "touches" as const];
    props.onChange({
      touches: isApart ? apart : [...apart, k].toSorted((a, b) => a - b),
      waits: need === undefined ? others : [...others, { layer: k, need }],
      ...(isMeasured() && isOther && { typed }),
    });
  }
  function measureAgain(): void {
    const typed = (props.draft.typed ?? []).filter((one) => one !== "touches");
    props.onMeasure({ typed: typed.length > 0 ? typed : undefined });
  }
  return (
    <>
      <p class="note">
        {text().layerWaits(
          props.layer,
          waitsOf(board.kitchen(), { layers: props.layers as Layer[] }, props.layer),
        )}
      </p>
      <details class="layer-figures" open={!isMeasured()}>
        <summary>
          {text().liesAgainst}
          <Show when={isMeasured()}>
            {" · "}
            {isTyped() ? text().typed : text().measured}
          </Show>
        </summary>
        <Index each={earlier()}>
          {(other, k) => (
            <Select
              label={text().against(k, other().name)}
              value={choiceOf(k)}
              options={CHOICES.map((value) => ({ value, name: text().needs[value] }))}
              onChange={(chosen) => choose(k, chosen)}
            />
          )}
        </Index>
        <Show when={isMeasured() && isTyped()}>
          <button type="button" class="small" onClick={measureAgain}>
            {text().backToMeasuredTouches}
          </button>
        </Show>
      </details>
    </>
  );
}
