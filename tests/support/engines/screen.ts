import { setTimeout as sleep } from "node:timers/promises";
import type { EnginePage } from "./engine.ts";

/** What is looked for on a page: the first in sight that the selector and the words fit. */
export interface Sought {
  css: string;
  words?: string;
  /** The words are all there is, spaces aside. */
  isExact?: boolean;
  /** Meant is what the label belongs to. */
  isLabel?: boolean;
}

export const button = (words: string, isExact = false): Sought => ({ css: "button", words, isExact });
export const link = (words: string, isExact = false): Sought => ({ css: "a[href]", words, isExact });
export const field = (words: string): Sought => ({ css: "label", words, isExact: true, isLabel: true });
export const part = (css: string, words?: string): Sought => ({ css, ...(words !== undefined && { words }) });

/** How a thing on the page stands. */
interface Seen {
  x: number;
  y: number;
  text: string;
  /** In sight, with nothing over its middle, and open to taps. */
  isReady: boolean;
}

/** Runs in the page, in every engine alike. */
function look({ css, words, isExact = false, isLabel = false }: Sought): Seen | null {
  const tidy = (text: string): string => text.replace(/\s+/g, " ").trim();
  for (const one of document.querySelectorAll<HTMLElement>(css)) {
    const text = tidy(one.getAttribute("aria-label") ?? one.textContent);
    if (words !== undefined && !(isExact ? text === words : text.includes(words))) continue;
    const target = isLabel ? (one as HTMLLabelElement).control : one;
    if (target === null || !target.checkVisibility({ visibilityProperty: true })) continue;
    const middle = (): { x: number; y: number } => {
      const { left, top, width, height } = target.getBoundingClientRect();
      return { x: left + width / 2, y: top + height / 2 };
    };
    const isClear = ({ x, y }: { x: number; y: number }): boolean => {
      const at = document.elementFromPoint(x, y);
      return at !== null && target.contains(at);
    };
    if (!isClear(middle())) target.scrollIntoView({ block: "center" });
    const at = middle();
    Object.assign(globalThis, { lookedFor: target });
    const isOpen = !target.matches(":disabled, [aria-disabled='true']");
    return { ...at, text, isReady: isOpen && isClear(at) };
  }
  return null;
}

const TAP = ["pointerdown", "touchstart", "mousedown", "pointerup", "touchend", "mouseup", "click"];

/**
 * Runs in the page. What is about to be tapped may move before the tap arrives, as when a toast goes: until `lift` a tap that
 * lands beside what was last looked for does nothing.
 */
function aim(types: readonly string[]): true {
  const target = Reflect.get(globalThis, "lookedFor") as Element;
  let isMissed = false;
  const onTap = (event: Event): void => {
    if (target.contains(event.target as Node)) return;
    isMissed = true;
    event.stopImmediatePropagation();
    event.preventDefault();
  };
  for (const type of types) addEventListener(type, onTap, { capture: true, passive: false });
  const lift = (): boolean => {
    for (const type of types) removeEventListener(type, onTap, { capture: true });
    return isMissed;
  };
  Object.assign(globalThis, { lift });
  return true;
}

/** Notes from now on what the page throws or says as an error, broken content rules among it. */
function listen(): true {
  if ("saidErrors" in globalThis) return true;
  const said: string[] = [];
  const note = (what: unknown): void => void said.push(String(what));
  addEventListener("error", ({ message }) => note(message));
  addEventListener("unhandledrejection", ({ reason }) => note(reason));
  document.addEventListener("securitypolicyviolation", ({ violatedDirective }) => note(violatedDirective));
  const { error } = console;
  console.error = (...words: unknown[]) => {
    note(words.join(" "));
    error(...words);
  };
  Object.assign(globalThis, { saidErrors: said });
  return true;
}

const WAIT_MS = 20_000;
const LOOK_MS = 50;
/** What has not moved for so long is taken to stand still. */
const STILL_MS = 200;

/** A page as someone uses it: they look for a thing by its words, wait for it, tap it and type. */
export interface EngineScreen {
  page: EnginePage;
  goTo: (address: string) => Promise<void>;
  reload: () => Promise<void>;
  /** Waits until it is there; gives its words. */
  find: (sought: Sought) => Promise<string>;
  tap: (sought: Sought) => Promise<void>;
  type: (label: string, text: string) => Promise<void>;
  /** What the page complained about. */
  complaints: () => Promise<string[]>;
}

export function engineScreen(page: EnginePage): EngineScreen {
  const run = (act: string, ...given: unknown[]): Promise<unknown> =>
    page.evaluate(`(${act})(...${JSON.stringify(given)})`);
  // While a page goes and the next one comes there is nothing to ask: as if nothing were there.
  const seen = async (sought: Sought): Promise<Seen | null> =>
    (await run(look.toString(), sought).catch(() => null)) as Seen | null;
  const complaints: string[] = [];
  const gather = async (): Promise<void> =>
    void complaints.push(...((await page.evaluate("globalThis.saidErrors?.splice(0) ?? []")) as string[]));

  async function until<Result>(what: () => string, look: () => Promise<Result | undefined>): Promise<Result> {
    const untilMs = performance.now() + WAIT_MS;
    for (;;) {
      const result = await look();
      if (result !== undefined) return result;
      if (performance.now() > untilMs) throw new Error(`${page.version}: ${what()}`);
      await sleep(LOOK_MS);
    }
  }
  const named = ({ css, words }: Sought): string => (words === undefined ? css : `${css} "${words}"`);

  const screen: EngineScreen = {
    page,
    async goTo(address) {
      await gather();
      await page.goTo(address);
      await run(listen.toString());
    },
    async reload() {
      await gather();
      await page.reload();
      await run(listen.toString());
    },
    find: (sought) =>
      until(
        () => `no ${named(sought)}`,
        async () => (await seen(sought))?.text,
      ),
    async tap(sought) {
      let was = "";
      const what = (): string => `no ${named(sought)} to tap: ${was}`;
      await until(what, async () => {
        const before = await seen(sought);
        was = before === null ? "it is not there" : "it cannot be tapped yet";
        if (before?.isReady !== true) return undefined;
        await sleep(STILL_MS);
        const now = await seen(sought);
        was = "it moves";
        if (now?.isReady !== true || now.x !== before.x || now.y !== before.y) return undefined;
        was = "something else was hit";
        await run(aim.toString(), TAP);
        await page.tapAt(now.x, now.y);
        // A page that the tap led away from was hit.
        const isMissed = await page.evaluate("globalThis.lift?.()").catch(() => false);
        return isMissed === true ? undefined : true;
      });
    },
    async type(label, text) {
      await screen.tap(field(label));
      // What stands there is typed over.
      await page.evaluate("document.activeElement.select()");
      await page.type(text);
    },
    async complaints() {
      await gather();
      return complaints;
    },
  };
  return screen;
}
