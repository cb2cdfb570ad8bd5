import type { PersonId } from "#shared/ids.ts";
import type { JoinAnswer } from "#shared/protocol.ts";
import type { Role } from "#shared/kitchen/vocabulary.ts";

/** What this phone was given when it joined. */
export interface Session {
  token: string;
  deviceId: string;
  personId: PersonId;
  name: string;
  role: Role;
}

const KEY = "traytide.session";

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
export async function joinKitchen(send: typeof fetch, code: string, name: string): Promise<Joined> {
  let response: Response;
  try {
    response = await send("/api/join", {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ code, name }),
    });
  } catch {
    return {
      ok: false,
      message: "The kitchen's server does not answer. Is this phone on the kitchen's network?",
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
    return { ok: true, session: { token, deviceId, personId: personId as PersonId, name, role } };
  return { ok: false, message: answer.message ?? sentenceFor(response.status) };
}

function sentenceFor(status: number): string {
  if (status === 403) return "That is not the kitchen's join code: it is on the server's screen.";
  if (status === 429) return "Too many tries. Wait a minute, then try again.";
  return `The server could not let this phone in (answer ${status}). Try again.`;
}
