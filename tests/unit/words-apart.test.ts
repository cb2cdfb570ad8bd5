import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { codesIn, sentencesIn } from "../support/sentences.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const files = ["shared", "display", "phone", "server"].flatMap((room) =>
  readdirSync(`${root}/${room}`, { recursive: true, encoding: "utf8" })
    .map((path) => `${room}/${path}`)
    .filter((path) => /\.tsx?$/.test(path) && !path.startsWith("shared/words/")),
);

/** What is no sentence for people, by file: names, and what machines read. */
const EXCEPTIONS: Readonly<Record<string, RegExp>> = {
  // The product's name, a typeface, options of the shell, media queries.
  "phone/app/join.tsx": /^Traytide$/,
  "phone/app/start.tsx": /^Traytide$/,
  "display/app/begin.tsx": /^--practice$/,
  "display/main.tsx": /Atkinson Hyperlegible Next/,
  "shared/client/screen/theme.ts": /^\(prefers-color-scheme/,
  "server/welcome/welcome.ts": /^\(pointer: coarse\)$/,
  // A picture's markup.
  "shared/client/cookie/cookie-svg.ts": /^<(svg|pattern) /,
  // Commands to be copied, HTTP headers, a certificate's name, reasons that socket.io gives.
  "phone/room/hygrometers.tsx": /^curl /,
  "server/http/pages.ts": /^public, max-age/,
  "server/http/tls.ts": /^Traytide kitchen CA$/,
  "shared/client/sync/socket.ts": /^io server disconnect$/,
  "server/live/gateway.ts": /^caught up$/,
  // A setting of express.
  "server/app.ts": /^trust proxy$/,
  // SQL, and keys and errors of the database.
  "server/log/sqlite-devices.ts": /^(SELECT|INSERT|UPDATE|device_id)/,
  "server/live/lead-code.ts": /^lead code/,
  "server/log/event-log.ts": /^the log is not as believed$/,
  "server/log/folder-lock.ts": /^BEGIN EXCLUSIVE$/,
  "server/log/folder-guard.ts": /^the data folder was deleted or replaced$/,
  "server/log/kitchen-db.ts": /^\s*(CREATE|ALTER|DROP|SELECT|INSERT|UPDATE)/,
  "server/log/sqlite-event-log.ts": /^(SELECT|INSERT|DELETE)/,
  "server/log/sqlite-values.ts": /^(SELECT|INSERT|DELETE|secure_delete)/,
  "server/log/sqlite.ts": /^(PRAGMA|the database is closed|unable to open the database file)/,
  "server/move/carry.ts": /^event …$/,
  "server/move/folder-kitchen.ts": /^\s*(SELECT|INSERT|integrity_check|… (ORDER BY|WHERE))/,
  "server/move/kitchen-tables.ts": /^(commands|set_aside)$/,
  "server/move/postgres-kitchen.ts": /^\s*(SELECT|SET|INSERT|UPDATE|DELETE|… COLLATE|at >)/,
  "server/postgres/connection.ts": /^SELECT/,
  "server/postgres/follow.ts": /^\s*(WITH|DELETE|LISTEN)/,
  "server/postgres/postgres-devices.ts": /^\s*(SELECT|INSERT|UPDATE|WITH|device_id)/,
  "server/postgres/postgres-log.ts": /^\s*(SELECT|INSERT|UPDATE|DELETE|WITH)/,
  "server/postgres/postgres-store.ts": /^(INSERT|DELETE)/,
  "server/postgres/postgres-values.ts": /^(SELECT|INSERT|DELETE)/,
  "server/postgres/tables.ts": /^\s*(CREATE|SELECT|INSERT|UPDATE)/,
  "server/main.ts": /^join code$/,
  "server/backup/backup-facts.ts": /^\s*(CREATE|SELECT|INSERT|DROP)/,
  "server/backup/before-upgrade.ts": /^(SELECT|opened by$)/,
  "server/backup/examine.ts": /^(PRAGMA|SELECT|'' AS hash)/,
  "server/backup/file-check.ts": /^SQLite format 3/,
  "server/backup/kitchen-id.ts": /^(SELECT|INSERT|kitchen id$)/,
  "server/backup/make-backup.ts": /^VACUUM/,
  "server/backup/restore.ts": /^(SELECT|UPDATE)/,
  "server/salvage/salvage.ts": /^(INSERT|PRAGMA|lead code|join code$|kitchen id$)/,
  // For whoever looks into a process that died.
  "server/backup/run-backup.ts": /^the backup's process ended by itself/,
  // Units, which the dictionaries word; a parameter's in an error for programmers.
  "shared/fields.ts": /^ms since 1970$/,
  "shared/icing/quantities.ts": /^of the (area|need)$/,
  // Names of the invented kitchen's people, designs, icings and orders: data.
  "server/practice/house.ts": /^(The Net Loft$|Maren |Perran )/,
  "server/practice/order-book.ts": /^An order$/,
  "server/practice/recipes.ts":
    /^(sea glass|Rock pool|Tide star|stalk and leaf|Rain cloud|Heather sprig)$|^(Lantern Walk|Mill Lane school|Allotment fair), /,
};

const codes = new Set(files.flatMap((file) => codesIn(`${root}/${file}`)));

test("no sentence stands outside shared/words", () => {
  const found = files.flatMap((file) =>
    sentencesIn(`${root}/${file}`, codes)
      .filter(({ text }) => EXCEPTIONS[file]?.test(text) !== true)
      .map(({ line, text }) => `${file}:${line} ${text}`),
  );
  expect(found).toEqual([]);
});

test("a sentence is found where there is one, and a code is not one", () => {
  const sample = `${root}/tests/fixtures/sentences.tsx`;
  expect(sentencesIn(sample, new Set(codesIn(sample))).map(({ text }) => text)).toEqual([
    "Flood the tray now",
    "Take … trays out",
    "Start",
  ]);
});
