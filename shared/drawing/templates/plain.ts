import { type Template, templateOf } from "./template.ts";
import { bumps, circle, ellipse, polar, rectangle } from "./strokes.ts";

const HEART =
  "M50 94C20 72 2 52 2 29C2 12 14 2 27 2C38 2 46 8 50 17C54 8 62 2 73 2C86 2 98 12 98 29C98 52 80 72 50 94Z";

export const round: Template = templateOf({
  outline: circle(50, 50, 50),
  areas: [{ id: "field" }],
  lines: [{ id: "ring", d: circle(50, 50, 33) }],
});

export const oval: Template = templateOf({
  outline: ellipse(50, 36, 50, 36),
  areas: [{ id: "field" }],
  lines: [{ id: "ring", d: ellipse(50, 36, 35, 22) }],
});

export const square: Template = templateOf({
  outline: rectangle(0, 0, 100, 100, 6),
  areas: [{ id: "field" }],
  lines: [{ id: "ring", d: rectangle(18, 18, 64, 64, 3) }],
});

export const plaque: Template = templateOf({
  outline: `M14 0H86A14 14 0 0 0 100 14V56A14 14 0 0 0 86 70H14A14 14 0 0 0 0 56V14A14 14 0 0 0 14 0Z`,
  areas: [{ id: "field" }],
  lines: [
    {
      id: "ring",
      d: `M23 11H77A16 16 0 0 0 89 23V47A16 16 0 0 0 77 59H23A16 16 0 0 0 11 47V23A16 16 0 0 0 23 11Z`,
    },
  ],
});

/** A round with a scalloped edge. */
export const scallop: Template = templateOf({
  outline: `M${polar(50, 50, 46, 0)}${bumps(50, 50, 46, 0, 360, 12, 12.5)}Z`,
  areas: [{ id: "field" }],
  lines: [{ id: "scallops", d: `M${polar(50, 50, 29, 0)}${bumps(50, 50, 29, 0, 360, 12, 8)}Z` }],
});

export const heart: Template = templateOf({
  outline: HEART,
  areas: [{ id: "field" }],
  lines: [
    {
      id: "ring",
      d: "M50 74C32 60 19 46 19 31C19 22 25 17 31 17C40 17 46 25 50 33C54 25 60 17 69 17C75 17 81 22 81 31C81 46 68 60 50 74Z",
    },
  ],
});

/** Straight sides between rounded tips. */
export const star: Template = templateOf({
  outline:
    Array.from({ length: 5 }, (_, k) => {
      const at = (r: number, degrees: number): string => polar(50, 50, r, 72 * k + degrees);
      return `${k === 0 ? "M" : "L"}${at(49, -4)}Q${at(53, 0)} ${at(49, 4)}L${at(27, 33)}Q${at(25.5, 36)} ${at(27, 39)}`;
    }).join("") + "Z",
  areas: [{ id: "field" }],
  lines: Array.from({ length: 5 }, (_, k) => ({
    id: `ray-${k + 1}`,
    d: `M50 50L${polar(50, 50, 34, 72 * k)}`,
  })),
});

export const moon: Template = templateOf({
  outline:
    "M63 2C32 2 4 24 4 54C4 84 30 104 60 104C75 104 85 99 92 92C95 88 92 84 87 84C62 84 46 68 46 48C46 33 54 22 68 13C74 9 71 2 63 2Z",
  areas: [{ id: "field" }],
  lines: [
    { id: "crater-1", d: circle(24, 48, 5.5) },
    { id: "crater-2", d: circle(36, 74, 6.5) },
    { id: "crater-3", d: circle(58, 89, 4) },
  ],
});

const wave = (y: number, by: number): string =>
  `M-5 ${y}` + Array.from({ length: 6 }, (_, k) => `q10 ${k % 2 === 0 ? -by : by} 20 0`).join("");

/** An egg in three bands. */
export const egg: Template = templateOf({
  outline: "M50 0C78 0 98 40 98 72C98 104 76 124 50 124C24 124 2 104 2 72C2 40 22 0 50 0Z",
  areas: [
    { id: "top", d: `${wave(47, 14)}V-10H-5Z` },
    { id: "bottom", d: `${wave(86, 14)}V140H-5Z` },
    { id: "middle" },
  ],
  lines: [
    { id: "wave-1", d: wave(47, 14) },
    { id: "wave-2", d: wave(86, 14) },
  ],
});
