import type { PersonId } from "#shared/ids.ts";
import type { Role } from "#shared/kitchen/model/vocabulary.ts";
import type { JoinFault } from "#shared/join-fault.ts";
import type { JoinAnswer } from "#shared/protocol/join.ts";

/** What a screen was given when it joined. */
export interface Session {
  token: string;
  deviceId: string;
  personId: PersonId;
  name: string;
  role: Role;
}

export type Joined = { ok: true; session: Session } | { ok: false; fault: JoinFault };

/** Asks to be let in. Never rejects. */
export async function askToJoin(
  send: typeof fetch,
  request: { code: string; name: string; as?: "wall" | "bench" },
): Promise<Joined> {
  let response: Response;
  try {
    response = await send("/api/join", {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify(request),
    });
  } catch {
    return { ok: false, fault: { code: "no-answer" } };
  }
  const answer = (await response.json().catch(() => ({}))) as Partial<JoinAnswer> & Refusal;
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
  return { ok: false, fault: faultOf(response.status, answer) };
}

interface Refusal {
  reason?: string;
  message?: string;
}

function faultOf(status: number, { reason, message }: Refusal): JoinFault {
  if (reason === "wrong-code") return { code: "wrong-code" };
  if (status === 429) return { code: "too-many" };
  return message === undefined ? { code: "failed", status } : { code: "refused", message };
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
