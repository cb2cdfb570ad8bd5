import { readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";

const client = new URL("../../dist/client/", import.meta.url);
const read = (path: string): Buffer => readFileSync(new URL(path, client));

interface Chunk {
  file: string;
  imports?: string[];
  css?: string[];
}

/** What the build says of its files, by where they come from. */
const manifest = (): Record<string, Chunk> =>
  JSON.parse(read(".vite/manifest.json").toString("utf8")) as Record<string, Chunk>;

/** Each screen's first code: what its page begins with, and what that asks for before it shows anything. */
const STARTS = {
  phone: ["phone/index.html", "phone/app/start.tsx"],
  wall: ["display/index.html"],
} as const;

const WORDS = { phone: "first.ts", wall: "index.ts" } as const;

/** The scripts that a screen loads before it can be used, in one language: their addresses in the built client. */
export function firstScripts(screen: keyof typeof STARTS, language: "en" | "es"): string[] {
  const chunks = manifest();
  const names = new Set<string>([...STARTS[screen], `shared/words/${language}/${WORDS[screen]}`]);
  for (const name of names) {
    const chunk = chunks[name];
    if (chunk === undefined) throw new Error(`the build has no ${name}: run npm run build`);
    for (const next of chunk.imports ?? []) names.add(next);
  }
  return [...new Set([...names].map((name) => chunks[name]!.file))];
}

/** A screen's styles. */
export const firstStyles = (screen: keyof typeof STARTS): string[] =>
  manifest()[STARTS[screen][0]]!.css ?? [];

/** As they are sent, gzipped, bytes. */
export const gzippedBytes = (files: readonly string[]): number =>
  files.reduce((sum, file) => sum + gzipSync(read(file)).length, 0);

/** The typefaces that a screen's styles name, with what they weigh as they are, and the characters each is loaded for. */
export function typefaces(
  screen: keyof typeof STARTS,
): { bytes: number; has: (character: string) => boolean }[] {
  const css = firstStyles(screen)
    .map((file) => read(file).toString("utf8"))
    .join("");
  return [...css.matchAll(/@font-face\s*\{([^}]*)\}/g)].map(([, face = ""]) => {
    const file = /url\(\/?([^)"']+)\)/.exec(face)?.[1] ?? "";
    const ranges = [
      ...(/unicode-range:([^;}]*)/.exec(face)?.[1] ?? "").matchAll(/U\+([\dA-F?]+)(?:-([\dA-F]+))?/gi),
    ].map(
      ([, from = "", to]) =>
        [
          Number.parseInt(from.replaceAll("?", "0"), 16),
          Number.parseInt(to ?? from.replaceAll("?", "F"), 16),
        ] as const,
    );
    return {
      bytes: read(file).length,
      has: (character) => {
        const code = character.codePointAt(0)!;
        return ranges.some(([from, to]) => code >= from && code <= to);
      },
    };
  });
}
