import { createResource, Show } from "solid-js";
import type { JSX } from "solid-js";

/** The QR of an address, as SVG. */
async function qrOf(address: string): Promise<string> {
  const { toString } = await import("qrcode");
  return toString(address, { type: "svg", margin: 0, errorCorrectionLevel: "M" });
}

/** A kitchen with nothing on the racks: how to begin. */
export function Begin(props: { isSetUp: boolean; origin: string; code: string }): JSX.Element {
  const isLocal = (): boolean => /^https?:\/\/(localhost|127\.|\[::1\])/.test(props.origin);
  const address = (): string => `${props.origin}/phone/#join=${encodeURIComponent(props.code)}`;
  const [qr] = createResource(() => (isLocal() ? undefined : address()), qrOf);
  return (
    <main class="begin">
      <div>
        <h1>{props.isSetUp ? "Nothing on the racks yet" : "Set up the kitchen on a phone"}</h1>
        <ol>
          <li>
            Join this kitchen's network with a phone and open{" "}
            <b>{isLocal() ? "the address on the server's own screen" : `${props.origin}/phone/`}</b>
          </li>
          <li>
            Join with the code <b class="code">{props.code === "" ? "on the server's screen" : props.code}</b>
          </li>
          <Show when={!props.isSetUp}>
            <li>The first to join leads: enter places, icings and designs under Room</li>
          </Show>
          <li>Enter an order and its trays under Orders. They show here at once.</li>
        </ol>
        <Show when={!props.isSetUp}>
          <p class="soft">
            To try it first with invented trays and a fast clock, start the server with{" "}
            <b class="option">--practice</b>.
          </p>
        </Show>
      </div>
      <Show when={qr()}>
        {(svg) => <div class="qr" innerHTML={svg()} role="img" aria-label={address()} />}
      </Show>
    </main>
  );
}
