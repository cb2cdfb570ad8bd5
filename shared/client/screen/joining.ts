import type { PersonId } from "#shared/ids.ts";
import type { Role } from "#shared/kitchen/model/vocabulary.ts";
import type { JoinAnswer } from "#shared/protocol.ts";

/** What a screen was given when it joined. */
export interface Session {
  token: string;
  deviceId: string;
  personId: PersonId;
  name: string;
  role: Role;
}

export type Joined = { ok: true; session: Session } | { ok: false; message: string };

/** Asks to be let in; every failure comes back as a sentence. `self` is what this screen calls itself. */
export async function askToJoin(
  send: typeof fetch,
  request: { code: string; name: string; as?: "wall" | "bench" },
  self: "phone" | "screen",
): Promise<Joined> {
  let response: Response;
  try {
    response = await send("/api/join", {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify(request),
    });
  } catch {
    return {
      ok: false,
      message: `The kitchen's server does not answer. Is this ${self} on the kitchen's network?`,
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
    return {
      ok: true,
      session: { token, deviceId, personId: personId as PersonId, name: request.name, role },
    };
  return { ok: false, message: answer.message ?? sentenceFor(response.status, self) };
}

function sentenceFor(status: number, self: string): string {
  if (status === 403) return "That is not the kitchen's join code: it is on the server's screen.";
  if (status === 429) return "Too many tries. Wait a minute, then try again.";
  return `The server could not let this ${self} in (answer ${status}). Try again.`;
}

/** The code in `#join=CODE`, as the server's own screen shows it; empty where there is none. */
export const joinCodeIn = (hash: string): string =>
  new URLSearchParams(hash.replace(/^#\/?/, "")).get("join") ?? "";

/** A session kept by the browser under one name, for the next time the page opens. */
export class SessionShelf<Kept extends Session> {
  readonly #storage: Storage;
  readonly #key: string;

  constructor(storage: Storage, key: string) {
    this.#storage = storage;
    this.#key = key;
  }

  /** Undefined where there is none, or what is there cannot be read. */
  read(): Kept | undefined {
    try {
      const raw = JSON.parse(this.#storage.getItem(this.#key) ?? "null") as Kept | null;
      return typeof raw?.token === "string" ? raw : undefined;
    } catch {
      return undefined;
    }
  }

  keep(session: Kept): void {
    this.#storage.setItem(this.#key, JSON.stringify(session));
  }

  forget(): void {
    this.#storage.removeItem(this.#key);
  }
}
