import type { PersonId } from "#shared/ids.ts";
import type { JoinAnswer } from "#shared/protocol.ts";
import type { Role } from "#shared/kitchen/vocabulary.ts";

/** A wall only shows; a bench is a wall that can be touched, and acts under its own name. */
export type ScreenKind = "wall" | "bench";

/** What this screen was given when it joined. */
export interface Session {
  token: string;
  deviceId: string;
  personId: PersonId;
  name: string;
  role: Role;
  as: ScreenKind;
}

const KEY = "traytide.wall";

export function readSession(storage: Storage): Session | undefined {
  try {
    const raw = JSON.parse(storage.getItem(KEY) ?? "null") as Session | null;
    return typeof raw?.token === "string" ? raw : undefined;
  } catch {
    return undefined;
  }
}

export const keepSession = (storage: Storage, session: Session): void =>
  storage.setItem(KEY, JSON.stringify(session));
export const forgetSession = (storage: Storage): void => storage.removeItem(KEY);

export type Joined = { ok: true; session: Session } | { ok: false; message: string };

/** Asks to be let in; every failure comes back as a sentence. */
export async function joinAs(
  send: typeof fetch,
  as: ScreenKind,
  code: string,
  name: string,
): Promise<Joined> {
  let response: Response;
  try {
    response = await send("/api/join", {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ code, name, as }),
    });
  } catch {
    return {
      ok: false,
      message: "The kitchen's server does not answer. Is this screen on the kitchen's network?",
    };
  }
  const answer = (await response.json().catch(() => ({}))) as Partial<JoinAnswer> & { message?: string };
  const { token, deviceId, personId, role } = answer;
  if (
    response.ok &&
    token !== undefined &&
    deviceId !== undefined &&
    personId !== undefined &&
    role !== undefined
  )
    return { ok: true, session: { token, deviceId, personId: personId as PersonId, name, role, as } };
  if (response.status === 403)
    return { ok: false, message: "That is not the kitchen's join code: it is on the server's screen." };
  if (response.status === 429)
    return { ok: false, message: "Too many tries. Wait a minute, then try again." };
  return {
    ok: false,
    message: answer.message ?? `The server could not let this screen in (answer ${response.status}).`,
  };
}

/** The code in `#join=CODE`, as the server's own screen shows it. */
export const codeInHash = (hash: string): string =>
  new URLSearchParams(hash.replace(/^#/, "")).get("join") ?? "";
