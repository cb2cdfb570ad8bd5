import { Show } from "solid-js";
import { rangeOf } from "#shared/fields.ts";
import { figuresOf, type MeasuredFigures, type TypedFigure } from "#shared/kitchen/drawn/measured.ts";
import { Layer } from "#shared/kitchen/model/vocabulary.ts";
import { isPoured } from "#shared/icing/poured.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { LengthField, NumberField } from "#phone/ui/number-field.tsx";
import type { LayerProps } from "./layer-props.ts";

type Figure = Exclude<TypedFigure, "touches">;

/** A layer's area, line and narrowest span: measured off the drawing, or typed by hand and said so. */
export function LayerFigures(props: LayerProps) {
  const { words } = usePhone();
  const { entries } = Layer;
  const text = () => words().designs;
  const measured = (): MeasuredFigures => (props.measured ? figuresOf(props.measured, props.draft) : {});
  const isTyped = (figure: Figure): boolean => props.draft.typed?.includes(figure) === true;
  function type(figure: Figure, value: number | undefined): void {
    const others = (props.draft.typed ?? []).filter((one) => one !== figure);
    props.onChange({
      [figure]: value,
      ...(measured()[figure] !== undefined && { typed: [...others, figure] }),
    });
  }
  const hint = (figure: Figure, otherwise?: string): string | undefined =>
    measured()[figure] === undefined ? otherwise : isTyped(figure) ? text().typed : text().measured;
  const Back = (own: { figure: Figure; say: (value: number) => string }) => (
    <Show when={isTyped(own.figure) && measured()[own.figure]}>
      {(value) => (
        <button
          type="button"
          class="small"
          onClick={() => {
            const typed = (props.draft.typed ?? []).filter((one) => one !== own.figure);
            props.onMeasure({ typed: typed.length > 0 ? typed : undefined });
          }}
        >
          {text().backToMeasured(own.say(value()))}
        </button>
      )}
    </Show>
  );
  return (
    <details class="layer-figures" open={props.measured === undefined}>
      <summary>{text().figures}</summary>
      <LengthField
        label={text().narrowest}
        valueMm={props.draft.narrowestMm}
        {...rangeOf(entries.narrowestMm)}
        hint={hint("narrowestMm", text().narrowestHint)}
        onChange={(mm) => type("narrowestMm", mm)}
      />
      <Back figure="narrowestMm" say={words().format.length} />
      <NumberField
        label={text().area}
        value={props.draft.areaCm2}
        {...rangeOf(entries.areaCm2)}
        optional
        digits={2}
        hint={hint("areaCm2", text().areaHint)}
        onChange={(areaCm2) => type("areaCm2", areaCm2)}
      />
      <Back figure="areaCm2" say={words().format.area} />
      <Show when={!isPoured(props.draft.consistency)}>
        <LengthField
          label={text().line}
          valueMm={props.draft.lineMm}
          {...rangeOf(entries.lineMm)}
          optional
          hint={hint("lineMm")}
          onChange={(mm) => type("lineMm", mm)}
        />
        <Back figure="lineMm" say={words().format.length} />
      </Show>
    </details>
  );
}
