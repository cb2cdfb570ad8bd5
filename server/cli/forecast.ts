import { forecastCommand } from "./forecast-command.ts";

const { out, err, exitCode } = forecastCommand(process.argv.slice(2));
process.stdout.write(out);
process.stderr.write(err);
process.exitCode = exitCode;
