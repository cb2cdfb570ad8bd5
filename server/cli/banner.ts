import { toString as drawQr } from "qrcode";
import { joinAddress } from "#shared/protocol/invite.ts";
import type { Words } from "#shared/words/words.ts";
import { originsOf } from "./addresses.ts";

export interface BannerFacts {
  addresses: readonly string[];
  port: number;
  isHttps: boolean;
  joinCode: string;
  /** The name the kitchen answers to on its network. */
  localHost?: string | undefined;
  /** Only when it is new: it is not kept. */
  leadCode?: string;
  practiceSpeed?: number;
  /** The data folder, or the database. */
  keptIn: string;
  /** A terminal that shows colours, so that the QR code is dark on light whatever its background. */
  isTerminal: boolean;
}

/** What is printed for people when the server is up: addresses, the join code, and a QR code that joins a phone. */
export async function banner(facts: BannerFacts, { server: { banner: words } }: Words): Promise<string> {
  const { practiceSpeed, leadCode, joinCode } = facts;
  const [main = "", ...others] = originsOf(facts.addresses, facts.port, facts.isHttps);
  const qr = await drawQr(
    joinAddress({ origin: main, joinCode }),
    facts.isTerminal ? { type: "terminal", small: true } : { type: "utf8", margin: 2 },
  );
  const width = Math.max(...Object.values(words.labels).map((label) => label.length)) + 3;
  const row = (label: keyof typeof words.labels, text: string): string =>
    `  ${words.labels[label].padEnd(width)}${text}`;
  return [
    "",
    practiceSpeed === undefined ? words.running : words.practice(practiceSpeed),
    "",
    row("wall", `${main}/display/`),
    row("phones", `${main}/phone/`),
    row("start", `${main}/`),
    ...(facts.localHost === undefined
      ? []
      : [row("name", `${originsOf([facts.localHost], facts.port, facts.isHttps)[0]}/`)]),
    ...(others.length === 0 ? [] : [row("also", others.join("  "))]),
    "",
    row("joinCode", joinCode),
    row("leadCode", leadCode === undefined ? words.leadCodeShown : words.leadCode(leadCode)),
    row("data", facts.keptIn),
    ...(facts.isHttps ? ["", row("trust", words.trust(main).join(`\n${" ".repeat(width + 2)}`))] : []),
    "",
    words.scan,
    qr,
  ].join("\n");
}
