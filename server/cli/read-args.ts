import { parseArgs, type ParseArgsConfig } from "node:util";
import { type Say, WordedError } from "#server/words.ts";

type Options = NonNullable<ParseArgsConfig["options"]>;

/** A command line's options; throws, in words, at what they do not allow. */
export function readArgs<Given extends Options>(args: readonly string[], options: Given) {
  try {
    return parseArgs({ args: [...args], options }).values;
  } catch (error) {
    throw new WordedError(faultOfArgs(error), { cause: error });
  }
}

/** What is wrong with a command line, from the error that Node ends with. */
export function faultOfArgs(error: unknown): Say {
  const { code, message } = error as { code?: unknown; message: string };
  // Node names what it is about in quotes, first.
  const about = /'([^']*)'/.exec(message)?.[1] ?? "";
  if (code === "ERR_PARSE_ARGS_UNKNOWN_OPTION") return ({ server }) => server.options.unknown(about);
  if (code === "ERR_PARSE_ARGS_UNEXPECTED_POSITIONAL")
    return ({ server }) => server.options.unexpected(about);
  return ({ server }) => server.options.malformed(about);
}
