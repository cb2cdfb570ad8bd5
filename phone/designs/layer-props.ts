import type { MeasuredDrawing } from "#shared/kitchen/drawn/measured.ts";
import type { Consistency } from "#shared/kitchen/model/vocabulary.ts";
import type { LayerDraft } from "./design-draft.ts";

/** One layer of the design being written. Layers count from 0. */
export interface LayerProps {
  layers: readonly LayerDraft[];
  layer: number;
  draft: LayerDraft;
  measured: MeasuredDrawing | undefined;
  onChange: (change: Partial<LayerDraft>) => void;
  /** Changes what the drawing is measured by. */
  onMeasure: (change: Partial<LayerDraft>) => void;
  onConsistency: (consistency: Consistency) => void;
  onMoveUp: (layer: number) => void;
  onRemove: () => void;
}
