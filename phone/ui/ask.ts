import type { Words } from "#shared/words/words.ts";

/** What the server answered, or why it did not. */
export type Asked<Answer> = { ok: true; value: Answer } | { ok: false; fault: AskFault };

export type AskFault =
  | { code: "no-answer" }
  /** The server's own sentence. */
  | { code: "refused"; message: string }
  | { code: "failed"; status: number };

/** Why an answer is not what was asked for. */
export const askFault = (status: number, { message }: { message?: string }): AskFault =>
  message === undefined ? { code: "failed", status } : { code: "refused", message };

export function askFaultWords({ forms }: Words, fault: AskFault): string {
  if (fault.code === "no-answer") return forms.noAnswer;
  return fault.code === "refused" ? fault.message : forms.answered(fault.status);
}

/** Asks the server for what is not on the board: `GET` of a path under /api, `POST` where there is a body. Never rejects. */
export type Ask = <Answer>(path: string, body?: object) => Promise<Asked<Answer>>;

export const askServer =
  (send: typeof fetch, token: string): Ask =>
  async <Answer>(path: string, body?: object): Promise<Asked<Answer>> => {
    try {
      const authorization = `Bearer ${token}`;
      const response = await send(
        `/api/${path}`,
        body === undefined
          ? { headers: { authorization } }
          : {
              method: "POST",
              headers: { authorization, "content-type": "application/json" },
              body: JSON.stringify(body),
            },
      );
      const answer = (await response.json()) as Answer & { message?: string };
      if (response.ok) return { ok: true, value: answer };
      return { ok: false, fault: askFault(response.status, answer) };
    } catch {
      return { ok: false, fault: { code: "no-answer" } };
    }
  };
