import { Show, createMemo } from "solid-js";
import { Cookie } from "#shared/client/cookie/cookie.tsx";
import type { Tray } from "#shared/kitchen/model/state.ts";
import { trayCookie } from "#shared/kitchen/tray/cookie-picture.ts";
import { useFirst } from "#phone/app/phone.tsx";

/** A tray's cookies as they are now; nothing of a tray that is gone. */
export function TrayCookie(props: { tray: Tray | undefined; isLarge?: boolean }) {
  const { board } = useFirst();
  const point = createMemo(() => props.tray && trayCookie(board.kitchen(), props.tray), undefined, {
    equals: (a, b) => a?.design === b?.design && a?.laid === b?.laid,
  });
  return (
    <Show when={point()}>
      {(point) => (
        <Cookie
          class={props.isLarge === true ? "head-cookie" : "card-cookie"}
          point={point()}
          icings={board.kitchen().icings}
        />
      )}
    </Show>
  );
}
