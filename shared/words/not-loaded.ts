import type { Language } from "./formats.ts";

/** What a page says that could not even load its words. */
export const NOT_LOADED: Readonly<Record<Language, string>> = {
  en: "Traytide could not be loaded from the server. Reload this page.",
  es: "No se pudo cargar Traytide desde el servidor. Recargue esta página.",
};
