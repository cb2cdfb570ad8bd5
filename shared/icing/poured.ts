export type Consistency = "outline" | "top-coat" | "flood" | "detail";

/** Poured over an area; else it is piped as a line. */
export const isPoured = (consistency: Consistency): boolean =>
  consistency === "flood" || consistency === "top-coat";
