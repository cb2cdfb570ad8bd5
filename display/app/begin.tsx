import { createResource, type JSX, Show } from "solid-js";
import { useWords } from "#shared/client/screen/language.ts";
import { leadsHere } from "#shared/kitchen/model/people.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";

/** The QR of an address, as SVG. */
async function qrOf(address: string): Promise<string> {
  const { toString } = await import("qrcode");
  return toString(address, { type: "svg", margin: 0, errorCorrectionLevel: "M" });
}

/** A kitchen with nothing on the racks: how to begin. */
export function Begin(props: { kitchen: Kitchen; origin: string; code: string }): JSX.Element {
  const words = useWords();
  const begin = () => words().wall.begin;
  const isSetUp = (): boolean => props.kitchen.isSetUp;
  const hasLead = (): boolean => leadsHere(props.kitchen).length > 0;
  const isLocal = (): boolean => /^https?:\/\/(localhost|127\.|\[::1\])/.test(props.origin);
  const address = (): string => `${props.origin}/phone/#join=${encodeURIComponent(props.code)}`;
  const [qr] = createResource(() => (isLocal() ? undefined : address()), qrOf);
  return (
    <main class="begin">
      <div>
        <h1>{isSetUp() ? begin().title : begin().setUpTitle}</h1>
        <ol>
          <li>
            {begin().network} <b>{isLocal() ? begin().addressOnServer : `${props.origin}/phone/`}</b>
          </li>
          <li>
            {begin().withCode} <b class="code">{props.code === "" ? begin().codeOnServer : props.code}</b>
          </li>
          <Show when={!isSetUp()}>
            <li>{hasLead() ? begin().leadsSetUp : begin().firstLeads}</li>
          </Show>
          <li>{begin().enterOrder}</li>
        </ol>
        <Show when={!isSetUp()}>
          <p class="soft">
            {begin().practice} <b class="option">--practice</b>.
          </p>
        </Show>
      </div>
      <Show when={qr()}>
        {(svg) => <div class="qr" innerHTML={svg()} role="img" aria-label={address()} />}
      </Show>
    </main>
  );
}
