import type { Advice } from "#shared/kitchen/advice/advice.ts";

/** `GET /api/advice?tray=NUMBER` or `?order=ID`: what would help, or why there is nothing to say. Kitchen time. */
export type AdviceAnswer = { atMs: number; advice: Advice } | { atMs: number; why: string };
