import type { Formats } from "#shared/words/formats.ts";
import { backup, restore } from "./server/backup.ts";
import { banner } from "./server/banner.ts";
import { csv } from "./server/csv.ts";
import { data } from "./server/data.ts";
import { done } from "./server/done.ts";
import { forecast } from "./server/forecast.ts";
import { http } from "./server/http.ts";
import { log } from "./server/log.ts";
import { move } from "./server/move.ts";
import { options } from "./server/options.ts";
import { practice } from "./server/practice.ts";
import { postgres } from "./server/postgres.ts";
import { problems } from "./server/problems.ts";
import { sensors } from "./server/sensors.ts";
import { verify } from "./server/verify.ts";

/** The server's console, command lines, HTTP answers, health and files. */
export const server = (format: Formats) => ({
  backup: backup(format),
  banner: banner(format),
  csv: csv(),
  data: data(format),
  done: done(format),
  forecast: forecast(format),
  http: http(format),
  log: log(format),
  move: move(format),
  options: options(format),
  practice: practice(),
  postgres: postgres(format),
  problems: problems(),
  restore: restore(format),
  sensors: sensors(format),
  verify: verify(format),
});
