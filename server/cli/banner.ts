import { toString as drawQr } from "qrcode";
import { urlHost } from "./addresses.ts";

export interface BannerFacts {
  addresses: readonly string[];
  port: number;
  isHttps: boolean;
  joinCode: string;
  /** Only when it is new: it is not kept. */
  leadCode?: string;
  practiceSpeed?: number;
  dataFolder: string;
  /** A terminal that shows colours, so that the QR code is dark on light whatever its background. */
  isTerminal: boolean;
}

/** What is printed for people when the server is up: addresses, the join code, and a QR code that joins a phone. */
export async function banner(facts: BannerFacts): Promise<string> {
  const scheme = facts.isHttps ? "https" : "http";
  const at = (host: string): string => `${scheme}://${urlHost(host)}:${facts.port}`;
  const main = at(facts.addresses[0] ?? "localhost");
  const joinUrl = `${main}/phone/#join=${encodeURIComponent(facts.joinCode)}`;
  const qr = await drawQr(
    joinUrl,
    facts.isTerminal ? { type: "terminal", small: true } : { type: "utf8", margin: 2 },
  );
  const others = facts.addresses.slice(1).map(at);
  const trust = `To trust this kitchen's certificate, fetch ${main}/ca.crt on each phone and install it:
           iPhone: Settings > Profile downloaded > Install, then General > About > Certificate trust settings.
           Android: Settings > Security > More > Install a certificate > CA certificate.
           Computer: import it as a certificate authority in the browser or the system's keychain.`;
  return `
${facts.practiceSpeed === undefined ? "Traytide is up." : `Traytide is up with a practice kitchen: invented data, clock ${facts.practiceSpeed} times as fast.`}

  Wall     ${main}/display/
  Phones   ${main}/phone/
  Start    ${main}/${others.length === 0 ? "" : `\n  Also at  ${others.join("  ")}`}

  Join code   ${facts.joinCode}
  Lead code   ${leadCodeLine(facts.leadCode)}
  Data        ${facts.dataFolder}
${facts.isHttps ? `\n  Trust    ${trust}\n` : ""}
Point a phone's camera here to join:
${qr}`;
}

const leadCodeLine = (code: string | undefined): string =>
  code === undefined
    ? "was shown when it was made; a new one: npm start -- --new-lead-code"
    : `${code}   (write it down, it is shown only now: in place of the join code, it makes a lead's second or new phone a lead's)`;
