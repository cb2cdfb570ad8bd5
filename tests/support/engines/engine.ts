import type { Size } from "../browser.ts";

export const ENGINES = ["chromium", "webkit", "firefox"] as const;
export type EngineName = (typeof ENGINES)[number];

/** A browser engine that a test drives: the little that all of them can do. */
export interface Engine {
  name: EngineName;
  /** An empty page with a profile of its own, as on a device of its own. */
  open: (size: Size) => Promise<EnginePage>;
  close: () => Promise<void>;
}

export interface EnginePage {
  /** The engine's name and version. */
  version: string;
  goTo: (address: string) => Promise<void>;
  reload: () => Promise<void>;
  /** What an expression comes to in the page: something that JSON can carry. */
  evaluate: (expression: string) => Promise<unknown>;
  /** A finger's tap where the engine's driver has one, else a mouse's click; from the window's corner, px. */
  tapAt: (x: number, y: number) => Promise<void>;
  /** Keys for whatever has the focus. */
  type: (text: string) => Promise<void>;
  picture: (path: string) => Promise<void>;
  close: () => Promise<void>;
}
