import type { KitchenUnits } from "#shared/units.ts";
import { type AmountTerms, type Formats, makeFormats } from "#shared/words/formats.ts";
import { acts } from "./acts.ts";
import { advice } from "./advice.ts";
import { alerts } from "./alerts.ts";
import { app } from "./app.ts";
import { book } from "./room/book.ts";
import { backups } from "./room/backups.ts";
import { cautions } from "./cautions.ts";
import { cookie } from "./cookie.ts";
import { day } from "./room/day.ts";
import { desk } from "./desk.ts";
import { designs } from "./designs.ts";
import { devices } from "./room/devices.ts";
import { drawings } from "./drawings.ts";
import { drying } from "./drying.ts";
import { faults } from "./faults.ts";
import { forms } from "./forms.ts";
import { happened } from "./happened.ts";
import { heat } from "./heat.ts";
import { icing } from "./icing.ts";
import { newDesign } from "./new-design.ts";
import { orders } from "./orders.ts";
import { packing } from "./packing.ts";
import { plan } from "./plan.ts";
import { print } from "./print.ts";
import { refusals } from "./refusals.ts";
import { room } from "./room/room.ts";
import { server } from "./server.ts";
import { setUp } from "./set-up.ts";
import { story } from "./story.ts";
import { terms } from "./terms.ts";
import { trace } from "./trace.ts";
import { trays } from "./trays.ts";
import { trust } from "./room/trust.ts";
import { wall } from "./wall.ts";

const AMOUNTS: AmountTerms = {
  language: "en",
  locales: { metric: "en-GB", us: "en-US" },
  cup: "cup",
  cups: "cups",
  tablespoon: "tbsp",
  teaspoon: "tsp",
  inch: "in",
  days: "days",
  now: "now",
  under: (span) => `under ${span}`,
  about: (span) => `about ${span}`,
};

/** English for a kitchen: British or American by its units. `timeZone`: an IANA name. */
export const english = (units: KitchenUnits, timeZone: string) =>
  englishFor(makeFormats(AMOUNTS, units, timeZone));

const englishFor = (format: Formats) => ({
  format,
  acts: acts(format),
  advice: advice(format),
  alerts: alerts(format),
  app: app(format),
  backups: backups(format),
  book: book(format),
  cautions: cautions(format),
  cookie: cookie(format),
  day: day(format),
  desk: desk(format),
  designs: designs(format),
  devices: devices(format),
  drawings: drawings(format),
  drying: drying(format),
  faults: faults(format),
  forms: forms(format),
  happened: happened(format),
  heat: heat(format),
  icing: icing(format),
  newDesign: newDesign(format),
  orders: orders(format),
  packing: packing(format),
  plan: plan(format),
  print: print(format),
  refusals: refusals(format),
  room: room(format),
  server: server(format),
  setUp: setUp(format),
  story: story(format),
  terms: terms(format),
  trace: trace(format),
  trays: trays(format),
  trust: trust(format),
  wall: wall(format),
});
