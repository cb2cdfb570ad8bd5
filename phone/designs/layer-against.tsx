import { For } from "solid-js";
import { type Layer, Need } from "#shared/kitchen/model/vocabulary.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { Select } from "#phone/ui/fields.tsx";

const CHOICES = ["usual", ...Need.options, "apart"] as const;

/** For each earlier layer: whether this one lies against it, and what it then waits for. */
export function LayerAgainst(props: {
  layers: readonly Layer[];
  layer: number;
  onChange: (change: Pick<Layer, "touches" | "waits">) => void;
}) {
  const { words } = usePhone();
  const own = (): Layer | undefined => props.layers[props.layer];
  const earlier = (): number[] => Array.from({ length: props.layer }, (_, k) => k);
  const touches = (): number[] => own()?.touches ?? earlier();
  const choiceOf = (k: number): string =>
    touches().includes(k) ? (own()?.waits?.find(({ layer }) => layer === k)?.need ?? "usual") : "apart";
  function choose(k: number, chosen: string): void {
    const others = (own()?.waits ?? []).filter(({ layer }) => layer !== k);
    const need = Need.options.find((one) => one === chosen);
    const apart = touches().filter((one) => one !== k);
    props.onChange({
      touches: chosen === "apart" ? apart : [...apart, k].toSorted((a, b) => a - b),
      waits: need === undefined ? others : [...others, { layer: k, need }],
    });
  }
  return (
    <For each={earlier()}>
      {(k) => (
        <Select
          label={words().designs.against(k, props.layers[k]?.name ?? "")}
          value={choiceOf(k)}
          options={CHOICES.map((value) => ({ value, name: words().designs.needs[value] }))}
          onChange={(chosen) => choose(k, chosen)}
        />
      )}
    </For>
  );
}
