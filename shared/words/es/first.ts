import type { KitchenUnits } from "#shared/units.ts";
import { type AmountTerms, makeFormats } from "#shared/words/formats.ts";
import type { FirstWords } from "#shared/words/words.ts";
import { alerts } from "./alerts.ts";
import { app } from "./app.ts";
import { cookie } from "./cookie.ts";
import { drying } from "./drying.ts";
import { terms } from "./terms.ts";
import { trays } from "./trays.ts";

const AMOUNTS: AmountTerms = {
  language: "es",
  locales: { metric: "es-ES", us: "es-US" },
  cup: "taza",
  cups: "tazas",
  tablespoon: "cda",
  teaspoon: "cdta",
  inch: "pulg",
  days: "días",
  now: "ahora",
  under: (span) => `menos de ${span}`,
  about: (span) => `aprox. ${span}`,
};

/** What a phone's first screen says in Spanish, and a tray's: loaded before anything is shown. The rest is in `index.ts`. */
export function spanishFirst(units: KitchenUnits, timeZone: string): FirstWords {
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
