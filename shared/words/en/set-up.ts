import type { Formats } from "#shared/words/formats.ts";

/** Setting up the kitchen, places and tools. */
export const setUp = (format: Formats) => ({
  steps: {
    label: "Steps",
    names: ["Kitchen", "Places", "Heat tools", "Icings", "First design"] as readonly string[],
    /** Of each step but the first. */
    notes: [
      "Where trays stand, and the air over them: it decides how fast they dry.",
      "What sets icing with heat. Leave it empty if you use none.",
      `Your ${format.units === "us" ? "colors" : "colours"}. Water by consistency is the kitchen's, unless an icing differs.`,
      "One design to begin with: its layers in the order you lay them.",
    ] as readonly string[],
    next: (name: string) => `Next: ${name}`,
    done: "Done: add the first order",
    back: "Back",
  },
  usualRoom: {
    start: "Start with a usual room",
    has: "two racks, a fan rack, a bench, a low oven, a hot-air tool, three icings, one design: change what differs",
    done: "A usual room is set up",
  },
});
