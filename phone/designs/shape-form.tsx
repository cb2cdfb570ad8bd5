import { For, createMemo, createSignal } from "solid-js";
import { createStore } from "solid-js/store";
import { DRAWING_LIMITS } from "#shared/drawing/drawing.ts";
import {
  ovalDrawing,
  polygonDrawing,
  rectangleDrawing,
  ringDrawing,
  roundDrawing,
} from "#shared/drawing/shapes.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { Choice } from "#phone/ui/plain-field.tsx";
import { LengthField, NumberField } from "#phone/ui/number-field.tsx";
import { type Drawn, DrawnChoice } from "./drawn-choice.tsx";

interface Figures {
  diameter: number | undefined;
  width: number | undefined;
  height: number | undefined;
  corner: number | undefined;
  hole: number | undefined;
  sides: number | undefined;
  margin: number | undefined;
}
type Figure = keyof Figures;

const { sizeMm: SIZE } = DRAWING_LIMITS;
const RANGES: Readonly<Record<Figure, { min: number; max: number }>> = {
  diameter: SIZE,
  width: SIZE,
  height: SIZE,
  corner: { min: 0, max: 200 },
  hole: { min: 1, max: 380 },
  sides: { min: 3, max: 24 },
  margin: { min: 0, max: 50 },
};
/** The figures each shape asks for, and what is made of them. */
const SHAPES = {
  round: { asks: ["diameter"], make: (of) => roundDrawing(of.diameter, of.margin) },
  oval: { asks: ["width", "height"], make: (of) => ovalDrawing(of.width, of.height, of.margin) },
  rectangle: {
    asks: ["width", "height", "corner"],
    make: (of) => rectangleDrawing(of.width, of.height, of.corner, of.margin),
  },
  ring: { asks: ["diameter", "hole"], make: (of) => ringDrawing(of.diameter, of.hole, of.margin) },
  polygon: { asks: ["diameter", "sides"], make: (of) => polygonDrawing(of.diameter, of.sides, of.margin) },
} as const satisfies Record<
  string,
  { asks: readonly Figure[]; make: (of: Record<Figure, number>) => ReturnType<typeof roundDrawing> }
>;
type ShapeName = keyof typeof SHAPES;
const NAMES = Object.keys(SHAPES) as ShapeName[];

/** A plain cookie by its figures. */
export function ShapeForm(props: { onDrawn: (drawn: Drawn) => void }) {
  const { words } = usePhone();
  const text = () => words().newDesign;
  const [shape, setShape] = createSignal<ShapeName>("round");
  const [figures, setFigures] = createStore<Figures>({
    diameter: 80,
    width: 90,
    height: 60,
    corner: 8,
    hole: 25,
    sides: 6,
    margin: 3,
  });
  const asked = (): readonly Figure[] => [...SHAPES[shape()].asks, "margin"];
  const made = createMemo(() => {
    const own = { ...figures };
    return asked().every((figure) => own[figure] !== undefined)
      ? SHAPES[shape()].make(own as Record<Figure, number>)
      : undefined;
  });
  const fault = (): string | undefined => {
    const one = made();
    return one === undefined || one.ok ? undefined : words().drawings.fault(one.refusal);
  };
  const drawing = () => {
    const one = made();
    return one?.ok === true ? one.value : undefined;
  };
  return (
    <div class="form">
      <h2>{text().shape}</h2>
      <Choice
        label={text().whichShape}
        value={shape()}
        options={NAMES.map((value) => ({ value, name: text().shapes[value] }))}
        onChange={setShape}
      />
      <For each={asked()}>
        {(figure) =>
          figure === "sides" ? (
            <NumberField
              label={text().sides}
              value={figures.sides}
              {...RANGES.sides}
              isWhole
              onChange={(value) => setFigures("sides", value)}
            />
          ) : (
            <LengthField
              label={text()[figure]}
              valueMm={figures[figure]}
              {...RANGES[figure]}
              onChange={(mm) => setFigures(figure, mm)}
            />
          )
        }
      </For>
      <DrawnChoice
        drawing={drawing()}
        fault={fault()}
        onUse={(drawing) => props.onDrawn({ drawing, name: text().shapes[shape()] })}
      />
    </div>
  );
}
