/** Why something is not a drawing: facts, worded by `shared/words`. A part is named as a person would know it, else by its id. */
export type DrawingFault =
  | { code: "bad path"; part?: string }
  | { code: "same id"; part: string }
  | { code: "too many points"; most: number }
  | { code: "too many areas"; count: number; most: number }
  | { code: "too many lines"; count: number; most: number }
  | { code: "line width"; part: string; minMm: number; maxMm: number }
  | { code: "size"; widthMm: number; heightMm: number; minMm: number; maxMm: number }
  | { code: "too intricate"; part?: string }
  | { code: "margin"; marginMm: number }
  | { code: "outline in pieces" }
  | { code: "outline crosses itself" }
  | { code: "area crosses itself"; part: string }
  | { code: "no area"; part: string }
  | { code: "outside outline"; part: string };

/** Why an SVG cannot be read, besides what may be wrong with its drawing. */
export type SvgFault =
  | DrawingFault
  | { code: "too large"; bytes: number; mostBytes: number }
  | { code: "not svg" }
  | { code: "broken svg"; line: number }
  | { code: "entities" }
  | { code: "too deep"; most: number }
  | { code: "too many elements"; most: number }
  | { code: "too many shapes"; most: number }
  | { code: "copies" }
  | { code: "no width" }
  | { code: "no closed path" };
