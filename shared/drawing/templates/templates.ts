import { butterfly, fish, flower, leaf, shell, tree } from "./nature.ts";
import { egg, heart, moon, oval, plaque, round, scallop, square, star } from "./plain.ts";
import type { Template } from "./template.ts";
import { balloon, block, boat, house, kite, lantern, mitten, mug, snowman } from "./things.ts";

/** Every template by its name, in the order they are offered. */
export const TEMPLATES = {
  round,
  oval,
  square,
  plaque,
  scallop,
  heart,
  star,
  moon,
  egg,
  flower,
  leaf,
  tree,
  shell,
  fish,
  butterfly,
  kite,
  boat,
  lantern,
  house,
  mitten,
  mug,
  block,
  balloon,
  snowman,
} as const satisfies Record<string, Template>;

export type TemplateName = keyof typeof TEMPLATES;

export const TEMPLATE_NAMES = Object.keys(TEMPLATES) as TemplateName[];
