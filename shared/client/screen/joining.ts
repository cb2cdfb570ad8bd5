import type { PersonId } from "#shared/ids.ts";
import type { JoinFault, NameTaken } from "#shared/join-fault.ts";
import type { Role } from "#shared/kitchen/model/vocabulary.ts";
import type { JoinAnswer, JoinRequest } from "#shared/protocol/join.ts";

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
export async function askToJoin(send: typeof fetch, request: JoinRequest): Promise<Joined> {
  const response = await send("/api/join", {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(request),
  }).catch(() => undefined);
  if (response === undefined) return { ok: false, fault: { code: "no-answer" } };
  const answer = (await response.json().catch(() => ({}))) as Partial<JoinAnswer> & Refusal;
  const { token, deviceId, personId, role } = answer;
  const isWhole = ![token, deviceId, personId, role].includes(undefined);
  if (!response.ok || !isWhole) return { ok: false, fault: faultOf(response.status, answer) };
  return { ok: true, session: { token, deviceId, personId, role, name: request.name } as Session };
}

interface Refusal {
  reason?: string;
  message?: string;
  taken?: NameTaken;
}

function faultOf(status: number, { reason, message, taken }: Refusal): JoinFault {
  if (taken !== undefined) return { code: "name-taken", ...taken };
  if (reason === "wrong-code") return { code: "wrong-code" };
  if (status === 429) return { code: "too-many" };
  return message === undefined ? { code: "failed", status } : { code: "refused", message };
}

/** The code in `#join=CODE`, as the server's own screen shows it; empty where there is none. */
export const joinCodeIn = (hash: string): string =>
  new URLSearchParams(hash.replace(/^#\/?/, "")).get("join") ?? "";

/** A session kept by the browser under one name, for the next time the page opens. */
export interface SessionShelf<Kept extends Session> {
  /** Undefined where there is none, or what is there cannot be read. */
  read(): Kept | undefined;
  keep(session: Kept): void;
  forget(): void;
}

export const sessionShelf = <Kept extends Session>(storage: Storage, key: string): SessionShelf<Kept> => ({
  read() {
    try {
      const raw = JSON.parse(storage.getItem(key) ?? "null") as Kept | null;
      return typeof raw?.token === "string" ? raw : undefined;
    } catch {
      return undefined;
    }
  },
  keep: (session) => storage.setItem(key, JSON.stringify(session)),
  forget: () => storage.removeItem(key),
});
