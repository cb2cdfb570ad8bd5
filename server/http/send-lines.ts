import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import type { Response } from "express";

/** Streams lines no faster than they are taken; a reader that goes away ends it quietly. */
export async function sendLines(response: Response, lines: AsyncIterable<string>): Promise<void> {
  try {
    await pipeline(Readable.from(lines), response);
  } catch (error) {
    if (!response.destroyed) throw error;
  }
}
