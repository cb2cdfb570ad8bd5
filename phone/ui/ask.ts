/** What the server answered, or why it did not, in words. */
export type Asked<Answer> = { ok: true; value: Answer } | { ok: false; message: string };

/** Asks the server for what is not on the board: `GET` of a path under /api. Never rejects. */
export type Ask = <Answer>(path: string) => Promise<Asked<Answer>>;

export const askServer =
  (send: typeof fetch, token: string): Ask =>
  async <Answer>(path: string): Promise<Asked<Answer>> => {
    try {
      const response = await send(`/api/${path}`, { headers: { authorization: `Bearer ${token}` } });
      const body = (await response.json()) as Answer & { message?: string };
      if (response.ok) return { ok: true, value: body };
      return { ok: false, message: body.message ?? `The server answered ${response.status}.` };
    } catch {
      return { ok: false, message: "The kitchen's server does not answer." };
    }
  };
