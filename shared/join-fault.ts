/** Who has a name already: people, walls and sensors share none. */
export interface NameTaken {
  name: string;
  of: "person" | "wall" | "sensor";
}

/** Why a screen is not in the kitchen. */
export type JoinFault =
  /** It was, and the server knows it no longer. */
  | { code: "not-known" }
  | { code: "no-answer" }
  | { code: "wrong-code" }
  | { code: "too-many" }
  /** Someone or something else in the kitchen goes by that name. */
  | ({ code: "name-taken" } & NameTaken)
  /** What the server says is wrong with what was typed. */
  | { code: "refused"; message: string }
  | { code: "failed"; status: number };
