import { createMemo } from "solid-js";
import type { JSX } from "solid-js";
import { useFirstWords } from "#shared/client/screen/language.ts";
import type { CookiePoint } from "#shared/kitchen/tray/cookie-picture.ts";
import type { Icing } from "#shared/kitchen/model/vocabulary.ts";
import { sayCookie } from "#shared/words/cookie-text.ts";
import { cookieAddress } from "./cookie-svg.ts";

/**
 * A cookie at a point: laid layers in their icing's colour, the next striped, later ones faint. As large as its class
 * lets it be, by max-width and max-height. An image, so that a page draws each picture once and 300 of them cost a tick nothing.
 */
export function Cookie(props: {
  point: CookiePoint;
  icings: Readonly<Record<string, Icing>>;
  class?: string;
}): JSX.Element {
  const words = useFirstWords();
  const address = createMemo(() => cookieAddress(props.point, props.icings));
  const text = createMemo(() => sayCookie(words(), props.point));
  return <img class={`cookie ${props.class ?? ""}`} src={address()} alt={text()} draggable={false} />;
}
