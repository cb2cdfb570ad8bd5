import type { Advice, NoAdvice } from "#shared/kitchen/advice/advice.ts";

/**
 * `GET /api/advice?tray=NUMBER` or `?order=ID`: what would help, or why there is nothing to say, as facts. Kitchen time.
 * The answer also says each help, and why there is none, in a `message`.
 */
export type AdviceAnswer = { atMs: number; advice: Advice } | { atMs: number; why: NoAdvice };
