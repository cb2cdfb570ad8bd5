import { parseArgs } from "node:util";
import { moveKitchen, placeOf, sayPlace } from "#server/move/move.ts";
import { consoleWords, type Report, type Say, sayError } from "#server/words.ts";
import { faultOfArgs } from "./read-args.ts";

const words = consoleWords(process.env);
const { move } = words.server;
const report: Report = (say) => console.error(say(words));

function asked(): { named: string[]; isCopy: boolean } | Say {
  try {
    const { values, positionals } = parseArgs({
      options: { copy: { type: "boolean", default: false } },
      allowPositionals: true,
    });
    return { named: positionals, isCopy: values.copy };
  } catch (error) {
    return faultOfArgs(error);
  }
}

async function main(): Promise<number> {
  const given = asked();
  if (typeof given === "function") console.error(`${given(words)}\n`);
  const { named, isCopy } = typeof given === "function" ? { named: [], isCopy: false } : given;
  const [from, to, ...more] = named;
  if (from === undefined || to === undefined || more.length > 0) {
    console.error(move.usage);
    return 2;
  }
  try {
    const kitchen = process.env["TRAYTIDE_KITCHEN"];
    // Folders are meant from where npm was called.
    const base = process.env["INIT_CWD"] ?? process.cwd();
    const [source, target] = [placeOf(from, kitchen, base), placeOf(to, kitchen, base)];
    const { events, answers, devices, photos } = await moveKitchen(source, target, report, {
      mayBeOpen: isCopy,
    });
    console.log(move.done(sayPlace(target)(words)));
    console.log(move.counts(events, answers, devices, photos));
    if (!isCopy) console.log(move.next(sayPlace(source)(words)));
    return 0;
  } catch (error) {
    console.error(sayError(error)(words));
    return 1;
  }
}

process.exitCode = await main();
