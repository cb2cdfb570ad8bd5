import type { By } from "#shared/kitchen/event.ts";
import type { Role } from "#shared/kitchen/vocabulary.ts";

/** Who asks, and with what rights. */
export interface Actor {
  by: By;
  role: Role | "kitchen";
}

/** The kitchen itself: its alarms, its hygrometers, and what it puts away. */
export const KITCHEN: Actor = { by: "kitchen", role: "kitchen" };
