import { promisify } from "node:util";
import { gzip } from "node:zlib";
import type { Board } from "#server/live/board.ts";

const zipped = promisify(gzip);

/** Longer than this a body is not given again though nothing changed, ms: it says what time the server has. */
const GOOD_MS = 1000;

/** The board as `GET /api/board` gives it, made once for all who ask while nothing in it changes. */
export interface BoardBody {
  text: () => string;
  gzipped: () => Promise<Buffer>;
}

export function boardBody(board: Board, nowMs: () => number): BoardBody {
  let made: { of: readonly unknown[]; atMs: number; text: string; gzipped?: Promise<Buffer> } | undefined;

  function current(): NonNullable<typeof made> {
    const of = board.version();
    const isSame = made?.of.every((part, k) => part === of[k]) ?? false;
    if (made === undefined || !isSame || nowMs() - made.atMs > GOOD_MS)
      made = { of, atMs: nowMs(), text: JSON.stringify(board.snapshot()) };
    return made;
  }

  return {
    text: () => current().text,
    gzipped: () => {
      const body = current();
      body.gzipped ??= zipped(body.text);
      return body.gzipped;
    },
  };
}
