import { resolve } from "node:path";
import { isPostgres, type PostgresAddress, postgresAddress } from "#server/postgres/address.ts";
import { openingTrouble } from "#server/log/disk-trouble.ts";
import { postgresTrouble } from "#server/postgres/trouble.ts";
import { type Report, type Say, sayError, saysTheSame, WordedError } from "#server/words.ts";
import { BrokenLog, carry, NotCarried } from "./carry.ts";
import { fromFolder, intoFolder } from "./folder-kitchen.ts";
import type { Carried, KitchenSource } from "./kitchen-tables.ts";
import { fromPostgres, intoPostgres } from "./postgres-kitchen.ts";

/** Where a kitchen is kept: a data folder, or PostgreSQL. */
export type Place = { folder: string } | { postgres: PostgresAddress };

/** Folders are meant from `base`. */
export const placeOf = (text: string, kitchen?: string, base = "."): Place =>
  isPostgres(text) ? { postgres: postgresAddress(text, kitchen) } : { folder: resolve(base, text) };

export const sayPlace = (place: Place): Say =>
  "folder" in place
    ? () => place.folder
    : ({ server }) => server.postgres.keptAt(place.postgres.shown, place.postgres.kitchen);

/**
 * Carries a kitchen, whole and under its epoch, to where there is none; it stays as it is where it was. Throws, in words, when it cannot,
 * and then nothing was changed. `mayBeOpen`: servers may have it open in PostgreSQL, and what is carried is the kitchen of one moment.
 */
export async function moveKitchen(
  from: Place,
  to: Place,
  report: Report,
  { mayBeOpen = false } = {},
): Promise<Carried> {
  if (saysTheSame(sayPlace(from), sayPlace(to))) throw new WordedError(({ server }) => server.move.same);
  const carryOver = (source: KitchenSource): Promise<Carried> =>
    "folder" in to
      ? intoFolder(to.folder, source.epoch, report, (target) => carry(source, target))
      : intoPostgres(to.postgres, source.epoch, (target) => carry(source, target));
  try {
    return "folder" in from
      ? await fromFolder(from.folder, carryOver)
      : await fromPostgres(from.postgres, carryOver, { mayBeOpen });
  } catch (error) {
    throw worded(error, from, to);
  }
}

function worded(error: unknown, from: Place, to: Place): WordedError {
  if (error instanceof WordedError) return error;
  return new WordedError(sayFailure(error, from, to), { cause: error });
}

function sayFailure(error: unknown, from: Place, to: Place): Say {
  const where = sayPlace(from);
  if (error instanceof BrokenLog) return (words) => words.server.move.broken(where(words), error.seq);
  if (error instanceof NotCarried) return ({ server }) => server.move.notCarried;
  const { code } = error as { code?: unknown };
  if (String(code).startsWith("SQLITE_CORRUPT")) return (words) => words.server.move.damaged(where(words));
  if ("folder" in to) {
    const trouble = openingTrouble(error, to.folder);
    if (trouble !== undefined) return trouble;
  } else if (postgresTrouble(error) === "disk-full") {
    const { shown } = to.postgres;
    return ({ server }) => server.postgres.diskFull(shown);
  }
  return (words) => words.server.move.failed(sayError(error)(words));
}
