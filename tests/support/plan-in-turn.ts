import type { Planner } from "#server/forecast/planner.ts";
import { outlookSteps, planSteps } from "#shared/kitchen/plan/plan.ts";

/** Plans worked out where they are asked for, a step at a time: a test sees the same each time it runs. */
export const PLAN_IN_TURN: Planner = { plan: planSteps, outlook: outlookSteps };
