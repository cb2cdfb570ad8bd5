import { existsSync, readdirSync, statSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { nanoid } from "nanoid";
import { examine, type Held } from "#server/backup/examine.ts";
import { lockFolder } from "#server/log/folder-lock.ts";
import { readHighWater } from "#server/log/high-water.ts";
import { salvage } from "#server/salvage/salvage.ts";
import { WordedError } from "#server/words.ts";
import type { KitchenFault } from "#shared/words/en/server/verify.ts";
import type { Words } from "#shared/words/words.ts";
import { runCommand } from "./command.ts";
import { heldLines } from "./held-lines.ts";

/** Of as many findings of a kind no more are printed. */
const LONGEST_LIST = 12;

await runCommand(
  { usage: ({ server }) => server.verify.usage, options: { salvage: { type: "string" } }, most: 1 },
  async ({ words, named, options, dataFolder, print }) => {
    const asked = named[0] ?? dataFolder;
    const file = existsSync(asked) && statSync(asked).isDirectory() ? join(asked, "kitchen.db") : asked;
    if (options.salvage !== undefined) {
      const into = resolve(process.env["INIT_CWD"] ?? process.cwd(), options.salvage);
      salvageInto(file, into, words, print);
      return true;
    }
    const { held, faults } = examine(file);
    const all = [...faults, ...cutShort(file, held)];
    const { verify } = words.server;
    if (held !== undefined) for (const line of heldLines(held, words, [])) print(line);
    few(
      all.map((fault) => verify.fault(fault, file)),
      words,
      print,
    );
    few(
      (held?.unreadable ?? []).map(({ seq, reason }) => verify.unreadable(seq, reason)),
      words,
      print,
    );
    // The server passes over damaged snapshots by itself.
    if (all.length === 0) print(verify.whole(file));
    else if (held !== undefined || all.some(({ code }) => code === "damaged-pages" || code === "truncated"))
      print(verify.trySalvage(asked));
    return all.length === 0;
  },
);

/** How far the log is known to have come, where that stands beside it. */
function cutShort(file: string, held: Held | undefined): KitchenFault[] {
  const mark = readHighWater(dirname(file));
  if (held === undefined || held.facts !== undefined || mark?.epoch !== held.epoch) return [];
  return mark !== undefined && mark.seq > held.seq
    ? [{ code: "cut-short", seq: held.seq, knownSeq: mark.seq }]
    : [];
}

function few(lines: readonly string[], { server }: Words, print: (line: string) => void): void {
  for (const line of lines.slice(0, LONGEST_LIST)) print(line);
  if (lines.length > LONGEST_LIST) print(server.verify.more(lines.length - LONGEST_LIST));
}

function salvageInto(file: string, into: string, { server }: Words, print: (line: string) => void): void {
  const { verify } = server;
  if (!existsSync(file))
    throw new WordedError((words) => words.server.verify.fault({ code: "no-file" }, file));
  if (existsSync(into) && (!statSync(into).isDirectory() || readdirSync(into).length > 0))
    throw new WordedError((words) => words.server.verify.notNew(into));
  // A server that has it would go on writing.
  const unlock = file.endsWith("kitchen.db") ? lockFolder(dirname(file)) : () => undefined;
  try {
    const salvaged = salvage(file, into, nanoid);
    if (salvaged === undefined) throw new WordedError((words) => words.server.verify.nothingReadable(file));
    for (const line of verify.salvaged(into, salvaged)) print(line);
    for (const { fromSeq, toSeq, why } of salvaged.leftOut) print(verify.leftOut(fromSeq, toSeq, why));
    for (const lack of salvaged.lacks) print(verify.lacks[lack]);
    print(verify.startIt(into));
  } finally {
    unlock();
  }
}
