import { moveKitchen, placeOf, sayPlace } from "#server/move/move.ts";
import { consoleWords, type Report, sayError } from "#server/words.ts";

const words = consoleWords(process.env);
const { move } = words.server;
const report: Report = (say) => console.error(say(words));

async function main([from, to, ...more]: readonly string[]): Promise<number> {
  if (from === undefined || to === undefined || more.length > 0) {
    console.error(move.usage);
    return 2;
  }
  try {
    const kitchen = process.env["TRAYTIDE_KITCHEN"];
    const [source, target] = [placeOf(from, kitchen), placeOf(to, kitchen)];
    const { events, answers, devices, photos } = await moveKitchen(source, target, report);
    console.log(move.done(sayPlace(target)(words)));
    console.log(move.counts(events, answers, devices, photos));
    console.log(move.next(sayPlace(source)(words)));
    return 0;
  } catch (error) {
    console.error(sayError(error)(words));
    return 1;
  }
}

process.exitCode = await main(process.argv.slice(2));
