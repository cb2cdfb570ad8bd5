import { type CookiePoint, layerState } from "#shared/kitchen/tray/cookie-picture.ts";
import type { FirstWords } from "./words.ts";

/** What a cookie's picture shows, in words: "Kite: outline laid, moss next, cream to come". */
export function sayCookie({ cookie, format }: FirstWords, { design, laid }: CookiePoint): string {
  const named = (state: ReturnType<typeof layerState>): string[] =>
    design.layers.flatMap(({ name }, index) => (layerState(index, laid) === state ? format.name(name) : []));
  const [next] = named("next");
  return next === undefined
    ? cookie.finished(design.name)
    : cookie.picture(design.name, named("laid"), next, named("later"));
}
