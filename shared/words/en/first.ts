import type { KitchenUnits } from "#shared/units.ts";
import { type AmountTerms, makeFormats } from "#shared/words/formats.ts";
import { alerts } from "./alerts.ts";
import { app } from "./app.ts";
import { cookie } from "./cookie.ts";
import { drying } from "./drying.ts";
import { terms } from "./terms.ts";
import { trays } from "./trays.ts";

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

/** What a phone's first screen says in English, and a tray's: loaded before anything is shown. The rest is in `index.ts`. */
export function englishFirst(units: KitchenUnits, timeZone: string) {
  const format = makeFormats(AMOUNTS, units, timeZone);
  return {
    format,
    alerts: alerts(format),
    app: app(format),
    cookie: cookie(format),
    drying: drying(format),
    terms: terms(format),
    trays: trays(format),
  };
}
