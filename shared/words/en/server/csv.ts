import type { ProblemKind, Stage } from "#shared/kitchen/model/vocabulary.ts";

/** The table of trays for a spreadsheet: its columns in their order, and its cells. */
export const csv = () => ({
  columns: {
    tray: "tray",
    design: "design",
    order: "order",
    pickUp: "pick_up",
    cookies: "cookies",
    stage: "stage",
    place: "place",
    added: "added",
    firstFlooded: "first_flooded",
    packed: "packed",
    packedBy: "packed_by",
    layersLaid: "layers_laid",
    heatSets: "heat_sets",
    touchTests: "touch_tests",
    risksTaken: "risks_taken",
    good: "good",
    problems: "problems",
    problemNotes: "problem_notes",
    undone: "undone",
  },
  stages: {
    queued: "not started",
    flooding: "flooding",
    "heat-set": "heat-set",
    crusting: "crusting",
    "full-dry": "drying through",
    packed: "packed",
  } satisfies Record<Stage, string>,
  problems: {
    bled: "bled",
    sunk: "sunk",
    cracked: "cracked",
    swollen: "swollen",
    dented: "dented",
    smeared: "smeared",
    burned: "burned",
    broken: "broken",
  } satisfies Record<ProblemKind, string>,
});
