import type { DayPlan, Outlook, PlanSubject } from "#shared/kitchen/plan/plan.ts";
import type { PlanQuestion } from "#shared/kitchen/plan/plan-work.ts";
import type { Steps } from "#shared/steps.ts";

/** Works plans out of their questions. */
export interface Planner {
  plan: (question: PlanQuestion) => Steps<DayPlan>;
  /** What it comes to for one tray or order alone. */
  outlook: (question: PlanQuestion, subject: PlanSubject) => Steps<Outlook>;
}
