import { type Template, templateOf } from "./template.ts";
import { bumps, circle, ellipse, polar, rectangle } from "./strokes.ts";

export const leaf: Template = templateOf({
  outline:
    "M47 2Q50 -1 53 2C80 24 92 50 84 76C78 96 66 110 53 121Q50 124 47 121C34 110 22 96 16 76C8 50 20 24 47 2Z",
  areas: [{ id: "left", d: rectangle(-10, -10, 60, 150) }, { id: "right" }],
  lines: [
    { id: "midrib", d: "M50 16V130" },
    ...[36, 56, 76].flatMap((y, k) => [
      { id: `vein-left-${k + 1}`, d: `M50 ${y + 12}Q38 ${y + 7} ${27 + k} ${y - 5}` },
      { id: `vein-right-${k + 1}`, d: `M50 ${y + 12}Q62 ${y + 7} ${73 - k} ${y - 5}` },
    ]),
  ],
});

const petals = Array.from({ length: 6 }, (_, k) => k);

/** Six petals around an eye. */
export const flower: Template = templateOf({
  outline: `M${polar(50, 50, 40, -30)}${bumps(50, 50, 40, -30, 330, 6, 21.5)}Z`,
  areas: [
    { id: "eye", d: circle(50, 50, 14) },
    ...petals.map((k) => ({
      id: `petal-${k + 1}`,
      d: `M50 50L${polar(50, 50, 90, 60 * k - 30)}L${polar(50, 50, 90, 60 * k + 30)}Z`,
    })),
  ],
  lines: [
    { id: "eye-ring", d: circle(50, 50, 14) },
    ...petals.map((k) => ({
      id: `petal-line-${k + 1}`,
      d: `M${polar(50, 50, 14, 60 * k - 30)}L${polar(50, 50, 50, 60 * k - 30)}`,
    })),
  ],
});

/** A fir of three tiers on a trunk. */
export const tree: Template = templateOf({
  outline:
    "M46 4Q50 -2 54 4L77 33Q79 37 74 37H72L89 63Q91 67 86 67H83L101 95Q103 100 97 100H66V117Q66 120 63 120H37Q34 120 34 117V100H3Q-3 100 -1 95L17 67H14Q9 67 11 63L28 37H26Q21 37 23 33Z",
  areas: [
    { id: "trunk", d: rectangle(20, 97, 60, 30) },
    { id: "tier-1", d: "M-10 -10H110V33Q76 42 50 42Q24 42 -10 33Z" },
    { id: "tier-2", d: "M-10 -10H110V62Q80 72 50 72Q20 72 -10 62Z" },
    { id: "tier-3" },
  ],
  lines: [
    { id: "garland-1", d: "M-10 33Q24 42 50 42Q76 42 110 33" },
    { id: "garland-2", d: "M-10 62Q20 72 50 72Q80 72 110 62" },
    { id: "garland-3", d: "M36 97H64" },
  ],
});

/** A fan of flutes over a hinge. */
export const shell: Template = templateOf({
  outline: `M30 89L${polar(50, 56, 50, -104)}${bumps(50, 56, 50, -104, 104, 7, 15)}L70 89Q80 90 80 97V104Q80 110 74 110H26Q20 110 20 104V97Q20 90 30 89Z`,
  areas: [{ id: "hinge", d: rectangle(0, 91, 100, 30) }, { id: "fan" }],
  lines: [
    ...Array.from({ length: 6 }, (_, k) => ({
      id: `flute-${k + 1}`,
      d: `M${(40 + 4 * k).toFixed(2)} 84L${polar(50, 56, 49, -104 + (208 * (k + 1)) / 7)}`,
    })),
    { id: "hinge-line", d: "M10 91H90" },
  ],
});

export const fish: Template = templateOf({
  outline:
    "M3 39C14 14 38 0 58 8C66 11 72 16 77 21L95 4Q104 -3 106 7Q99 41 106 75Q104 85 95 78L77 61C72 66 66 71 58 74C38 82 14 68 3 43Q1 41 3 39Z",
  areas: [
    { id: "head", d: "M-10 -10H30Q42 41 30 90H-10Z" },
    { id: "tail", d: "M120 -10H82Q72 41 82 90H120Z" },
    { id: "body" },
  ],
  lines: [
    { id: "gill", d: "M30 -10Q42 41 30 90" },
    { id: "tail-line", d: "M82 -10Q72 41 82 90" },
    { id: "eye", d: circle(20, 34, 1.5) },
    { id: "scales-1", d: "M47 23q7 6 0 12q7 6 0 12q7 6 0 12" },
    { id: "scales-2", d: "M60 29q7 6 0 12q7 6 0 12" },
    { id: "tail-ray-1", d: "M83 35L94 24" },
    { id: "tail-ray-2", d: "M83 47L94 58" },
  ],
});

export const butterfly: Template = templateOf({
  outline:
    "M50 14C58 2 76 -4 90 3C104 10 102 36 88 44C98 52 98 72 86 80C74 87 60 80 54 70Q50 66 46 70C40 80 26 87 14 80C2 72 2 52 12 44C-2 36 -4 10 10 3C24 -4 42 2 50 14Z",
  areas: [
    { id: "body", d: ellipse(50, 44, 6.5, 30) },
    { id: "wing-top-left", d: "M50 46L-10 44V-10H50Z" },
    { id: "wing-top-right", d: "M50 46L110 44V-10H50Z" },
    { id: "wing-bottom-left", d: rectangle(-10, 40, 60, 60) },
    { id: "wing-bottom-right" },
  ],
  lines: [
    { id: "body-ring", d: ellipse(50, 44, 6.5, 30) },
    { id: "wing-line-left", d: "M43.5 46L-10 44" },
    { id: "wing-line-right", d: "M56.5 46L110 44" },
    { id: "spot-top-left", d: circle(22, 22, 7) },
    { id: "spot-top-right", d: circle(78, 22, 7) },
    { id: "spot-bottom-left", d: circle(25, 62, 5) },
    { id: "spot-bottom-right", d: circle(75, 62, 5) },
  ],
});
