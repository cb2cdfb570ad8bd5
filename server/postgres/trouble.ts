import type { SaveTrouble } from "#shared/kitchen/model/server-problem.ts";
import { type Say, sayError, WordedError } from "#server/words.ts";
import type { PostgresAddress } from "./address.ts";

/** PostgreSQL's own codes: https://www.postgresql.org/docs/current/errcodes-appendix.html */
const CODES = {
  diskFull: ["53100"],
  readOnly: ["25006", "42501"],
  wrongLogin: ["28P01", "28000"],
  noDatabase: ["3D000"],
} as const;

const hasCode = (error: unknown, codes: readonly string[]): boolean =>
  error instanceof Error && codes.includes(String((error as { code?: unknown }).code));

/** Why something could not be saved in PostgreSQL. Whatever is no answer of its own means that it cannot be reached. */
export function postgresTrouble(error: unknown): SaveTrouble {
  if (hasCode(error, CODES.diskFull)) return "disk-full";
  if (hasCode(error, CODES.readOnly)) return "database-read-only";
  return isAnswer(error) ? "unknown" : "database-away";
}

/** Whether the database itself said no: a code of five characters, but for those of a connection that broke or is refused. */
function isAnswer(error: unknown): boolean {
  const code = String((error as { code?: unknown } | undefined)?.code);
  return /^[0-9A-Z]{5}$/.test(code) && !/^(08|57P|53300)/.test(code) && !/^E[A-Z]+$/.test(code);
}

/** What keeps a kitchen in PostgreSQL from being opened, and what to do. */
export function openingFault(error: unknown, { shown }: PostgresAddress): WordedError {
  return new WordedError(sayOpening(error, shown), { cause: error });
}

function sayOpening(error: unknown, shown: string): Say {
  const reason = sayError(error);
  if (error instanceof WordedError) return (words) => words.server.postgres.cannotOpen(shown, reason(words));
  if (hasCode(error, CODES.wrongLogin)) return ({ server }) => server.postgres.wrongLogin(shown);
  if (hasCode(error, CODES.noDatabase)) return ({ server }) => server.postgres.noDatabase(shown);
  const trouble = postgresTrouble(error);
  if (trouble === "disk-full") return ({ server }) => server.postgres.diskFull(shown);
  if (trouble === "database-read-only") return ({ server }) => server.postgres.readOnly(shown);
  if (trouble === "database-away") return (words) => words.server.postgres.away(shown, reason(words));
  return (words) => words.server.postgres.cannotOpen(shown, reason(words));
}
