import { askToJoin, SessionShelf, type Session } from "#shared/client/screen/joining.ts";

/** A wall only shows; a bench is a wall that can be touched, and acts under its own name. */
export type ScreenKind = "wall" | "bench";

/** What this screen was given when it joined. */
export interface ScreenSession extends Session {
  as: ScreenKind;
}

export type ScreenJoined = { ok: true; session: ScreenSession } | { ok: false; message: string };

export const sessionShelf = (storage: Storage): SessionShelf<ScreenSession> =>
  new SessionShelf(storage, "traytide.wall");

/** Asks to be let in as a wall or a bench. */
export async function joinAs(
  send: typeof fetch,
  as: ScreenKind,
  code: string,
  name: string,
): Promise<ScreenJoined> {
  const joined = await askToJoin(send, { code, name, as }, "screen");
  return joined.ok ? { ok: true, session: { ...joined.session, as } } : joined;
}
