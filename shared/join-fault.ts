/** Why a screen is not in the kitchen. */
export type JoinFault =
  /** It was, and the server knows it no longer. */
  | { code: "not-known" }
  | { code: "no-answer" }
  | { code: "wrong-code" }
  | { code: "too-many" }
  /** What the server says is wrong with what was typed. */
  | { code: "refused"; message: string }
  | { code: "failed"; status: number };
