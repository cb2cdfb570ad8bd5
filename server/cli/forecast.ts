import { consoleWords } from "#server/words.ts";
import { forecastCommand } from "./forecast-command.ts";

const { out, err, exitCode } = forecastCommand(process.argv.slice(2), consoleWords(process.env));
process.stdout.write(out);
process.stderr.write(err);
process.exitCode = exitCode;
