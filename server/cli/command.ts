import { resolve } from "node:path";
import { parseArgs } from "node:util";
import { sayError, consoleWords, WordedError } from "#server/words.ts";
import type { Words } from "#shared/words/words.ts";
import { faultOfArgs } from "./read-args.ts";

/** A command about a kitchen's files, as it was asked for. */
export interface Asked<Options> {
  words: Words;
  /** What was named, as whole paths from where npm was called. */
  named: readonly string[];
  options: Options;
  dataFolder: string;
  /** Where backups go, if that was chosen. */
  backups: string | undefined;
  print: (line: string) => void;
}

type TextOptions = Readonly<Record<string, { type: "string" }>>;

/** Runs a command and sets the exit code: 1 where it says what is wrong, 2 where it was not asked for as it must be. */
export async function runCommand<const Options extends TextOptions>(
  about: { usage: (words: Words) => string; options: Options; most: number },
  run: (asked: Asked<{ [Key in keyof Options]?: string }>) => Promise<boolean>,
): Promise<void> {
  const words = consoleWords(process.env);
  const refuse = (why: string): void => {
    console.error(`${why}\n\n${about.usage(words)}`);
    process.exitCode = 2;
  };
  const from = process.env["INIT_CWD"] ?? process.cwd();
  let parsed: { values: Record<string, unknown>; positionals: string[] };
  try {
    parsed = parseArgs({
      args: process.argv.slice(2),
      options: { ...about.options, help: { type: "boolean" } },
      allowPositionals: true,
    });
  } catch (error) {
    return refuse(sayError(new WordedError(faultOfArgs(error)))(words));
  }
  const { values, positionals } = parsed;
  if (values["help"] === true) return console.log(about.usage(words));
  const stray = positionals[about.most];
  if (stray !== undefined) return refuse(words.server.options.tooMany(stray));
  // Everything this makes is its account's alone.
  process.umask(0o077);
  try {
    const isWell = await run({
      words,
      named: positionals.map((one) => resolve(from, one)),
      options: values as { [Key in keyof Options]?: string },
      dataFolder: resolve(process.env["TRAYTIDE_DATA"] ?? "./data"),
      backups: process.env["TRAYTIDE_BACKUPS"],
      print: (line) => console.log(line),
    });
    if (!isWell) process.exitCode = 1;
  } catch (error) {
    console.error(sayError(error)(words));
    process.exitCode = 1;
  }
}
