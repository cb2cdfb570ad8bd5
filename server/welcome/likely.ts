/** What a screen may be. */
export type ScreenUse = "phone" | "desk" | "wall" | "set-up";

/** What a browser tells of the machine it runs on. */
export interface Machine {
  widthPx: number;
  isTouched: boolean;
  /** What it joined as before. */
  wasWall: boolean;
  wasPhone: boolean;
  isKitchenSetUp: boolean;
}

/** From this width the phone's page is the desk; from the next a screen without touch more likely hangs on a wall. */
const [DESK_FROM_PX, WALL_FROM_PX] = [1000, 1900];

/** What this screen most likely is: what it was, else what its size and its fingers or mouse suggest. */
export function likelyUse({ widthPx, isTouched, wasWall, wasPhone, isKitchenSetUp }: Machine): ScreenUse {
  const isWide = widthPx >= DESK_FROM_PX;
  const own = isWide ? "desk" : "phone";
  if (wasWall && !wasPhone) return "wall";
  if (!isKitchenSetUp && !wasPhone) return "set-up";
  if (wasPhone) return own;
  return isWide && (isTouched || widthPx >= WALL_FROM_PX) ? "wall" : own;
}
