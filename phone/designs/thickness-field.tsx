import { Show, createSignal } from "solid-js";
import { rangeOf } from "#shared/fields.ts";
import { type Consistency, Layer } from "#shared/kitchen/model/vocabulary.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { Choice } from "#phone/ui/plain-field.tsx";
import { LengthField } from "#phone/ui/number-field.tsx";
import { type Thickness, THICKNESSES, thicknessMm } from "./design-draft.ts";

/** How thick a layer lies: thin, usual, thick, or a figure of one's own. */
export function ThicknessField(props: {
  consistency: Consistency;
  thicknessMm: number | undefined;
  onChange: (thicknessMm: number | undefined) => void;
}) {
  const { words } = usePhone();
  const text = () => words().designs;
  const [isOwn, setOwn] = createSignal(false);
  const named = (): Thickness | undefined =>
    THICKNESSES.find(
      (one) => Math.abs(thicknessMm(props.consistency, one) - (props.thicknessMm ?? 0)) < 0.01,
    );
  const chosen = (): Thickness | "own" => (isOwn() ? "own" : (named() ?? "own"));
  function choose(thickness: Thickness | "own"): void {
    setOwn(thickness === "own");
    if (thickness !== "own") props.onChange(thicknessMm(props.consistency, thickness));
  }
  return (
    <>
      <Choice
        label={text().thickness}
        value={chosen()}
        options={[
          ...THICKNESSES.map((value) => ({
            value,
            name: `${text().thicknesses[value]} · ${words().format.length(thicknessMm(props.consistency, value)).replace(" ", "\u00a0")}`,
          })),
          { value: "own" as const, name: text().thicknesses.own },
        ]}
        onChange={choose}
      />
      <Show when={chosen() === "own"}>
        <LengthField
          label={text().ownThickness}
          valueMm={props.thicknessMm}
          {...rangeOf(Layer.entries.thicknessMm)}
          onChange={(mm) => {
            setOwn(true);
            props.onChange(mm);
          }}
        />
      </Show>
    </>
  );
}
