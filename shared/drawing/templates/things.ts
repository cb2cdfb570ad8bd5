import { type Template, templateOf } from "./template.ts";
import { circle, ellipse, rectangle } from "./strokes.ts";

/** Four sections and a cross. */
export const kite: Template = templateOf({
  outline: "M47 2Q50 -2 53 2L98 49Q101 52 98 56L53 138Q50 142 47 138L2 56Q-1 52 2 49Z",
  areas: [
    { id: "top-left", d: rectangle(-10, -10, 60, 62) },
    { id: "top-right", d: rectangle(50, -10, 60, 62) },
    { id: "bottom-left", d: rectangle(-10, 52, 60, 100) },
    { id: "bottom-right" },
  ],
  lines: [
    { id: "spine", d: "M50 -10V150" },
    { id: "spar", d: "M-10 52H110" },
  ],
});

export const boat: Template = templateOf({
  outline:
    "M45 4Q50 -4 55 4C70 22 86 44 94 62Q95 65 92 66H97Q102 66 101 71C98 88 90 98 79 100H23C11 98 2 88 -1 71Q-2 66 3 66H10Q7 65 8 62C16 44 30 22 45 4Z",
  areas: [
    { id: "jib", d: rectangle(-10, -10, 58, 78) },
    { id: "sail", d: rectangle(48, -10, 80, 78) },
    { id: "hull" },
  ],
  lines: [
    { id: "mast", d: "M48 -10V68" },
    { id: "deck", d: "M-10 68H110" },
    { id: "waterline", d: "M8 84q7 -5 14 0t14 0t14 0t14 0t14 0t14 0" },
  ],
});

export const lantern: Template = templateOf({
  outline:
    "M40 7Q50 -6 60 7L62 15L86 30Q89 32 89 36V39Q89 42 86 42H83L89 88H92Q95 88 95 91V103Q95 106 92 106H8Q5 106 5 103V91Q5 88 8 88H11L17 42H14Q11 42 11 39V36Q11 32 14 30L38 15Z",
  areas: [
    { id: "roof", d: rectangle(0, -10, 100, 49) },
    { id: "base", d: rectangle(0, 89, 100, 30) },
    { id: "glass" },
  ],
  lines: [
    { id: "roof-line", d: "M0 39H100" },
    { id: "base-line", d: "M0 89H100" },
    { id: "bar-left", d: "M40 39L37 89" },
    { id: "bar-right", d: "M60 39L63 89" },
  ],
});

export const house: Template = templateOf({
  outline:
    "M46 3Q50 -1 54 3L70 17V10Q70 7 73 7H83Q86 7 86 10V31L103 46Q107 51 100 52H96V101Q96 104 93 104H7Q4 104 4 101V52H0Q-7 51 -3 46Z",
  areas: [
    { id: "roof", d: rectangle(-20, -10, 140, 61) },
    { id: "door", d: "M40 120V76A10 10 0 0 1 60 76V120Z" },
    { id: "window-left", d: rectangle(15, 62, 17, 17, 1) },
    { id: "window-right", d: rectangle(68, 62, 17, 17, 1) },
    { id: "wall" },
  ],
  lines: [
    { id: "eaves", d: "M-20 51H120" },
    { id: "door-frame", d: "M40 120V76A10 10 0 0 1 60 76V120" },
    { id: "frame-left", d: rectangle(15, 62, 17, 17, 1) },
    { id: "frame-right", d: rectangle(68, 62, 17, 17, 1) },
  ],
});

export const mitten: Template = templateOf({
  outline:
    "M14 84C10 64 10 44 13 32C17 12 28 2 42 2C57 2 67 13 69 32C70 40 70 46 70 50C74 42 80 33 88 33C98 33 103 43 98 53C92 66 84 76 74 84Q78 85 78 89V105Q78 109 74 109H14Q10 109 10 105V89Q10 85 14 84Z",
  areas: [{ id: "cuff", d: rectangle(-10, 86, 120, 40) }, { id: "hand" }],
  lines: [
    { id: "cuff-line", d: "M-10 86H110" },
    { id: "zigzag-1", d: "M5 40l9 9l9 -9l9 9l9 -9l9 9l9 -9l9 9l6 -6" },
    { id: "zigzag-2", d: "M5 56l9 9l9 -9l9 9l9 -9l9 9l9 -9l9 9l6 -6" },
    ...[24, 34, 44, 54, 64].map((x, k) => ({ id: `rib-${k + 1}`, d: `M${x} 90V105` })),
  ],
});

/** A toy block; its letter can be drawn anew. */
export const block: Template = templateOf({
  outline: rectangle(0, 0, 100, 100, 8),
  areas: [{ id: "face", d: rectangle(21, 21, 58, 58, 4) }, { id: "frame" }],
  lines: [
    { id: "face-line", d: rectangle(21, 21, 58, 58, 4) },
    { id: "letter", d: "M35 71L50 30L65 71M40.5 57H59.5" },
  ],
});

const FROTH = "M-10 20q7 -9 14 0t14 0t14 0t14 0t14 0t14 0";

export const mug: Template = templateOf({
  outline:
    "M6 0H68Q74 0 74 6V14H82C96 14 104 24 104 40C104 58 94 70 74 74V84Q74 94 64 94H10Q0 94 0 84V6Q0 0 6 0Z",
  areas: [
    { id: "handle", d: rectangle(72, -10, 50, 120) },
    { id: "froth", d: `${FROTH}V-10H-10Z` },
    { id: "side" },
  ],
  lines: [
    { id: "froth-line", d: FROTH },
    { id: "handle-line", d: "M72 14V74" },
    { id: "grip", d: "M78 27C90 26 93 31 93 40C93 50 88 57 78 59" },
    {
      id: "heart",
      d: "M37 72C26 64 22 57 22 50C22 44 26 42 29 42C33 42 36 45 37 48C38 45 41 42 45 42C48 42 52 44 52 50C52 57 48 64 37 72Z",
    },
  ],
});

export const balloon: Template = templateOf({
  outline:
    "M50 0C80 0 100 22 100 52C100 82 80 104 60 112L68 124Q71 130 64 130H36Q29 130 32 124L40 112C20 104 0 82 0 52C0 22 20 0 50 0Z",
  areas: [{ id: "knot", d: rectangle(0, 112, 100, 30) }, { id: "field" }],
  lines: [
    { id: "knot-line", d: "M20 112H80" },
    { id: "shine", d: "M18 56C17 36 27 22 42 17" },
  ],
});

export const snowman: Template = templateOf({
  outline:
    "M36 4Q36 0 40 0H64Q68 0 68 4V15H74Q78 15 78 19V21Q78 25 74 25H73C76 34 75 43 70 49C82 56 90 68 90 82C90 104 73 118 52 118C31 118 14 104 14 82C14 68 22 56 34 49C29 43 28 34 31 25H30Q26 25 26 21V19Q26 15 30 15H36Z",
  areas: [
    { id: "hat", d: rectangle(0, -10, 120, 34) },
    { id: "head", d: "M-10 20H120V46Q52 56 -10 46Z" },
    { id: "scarf", d: "M-10 46Q52 56 120 46V55Q52 65 -10 55Z" },
    { id: "body" },
  ],
  lines: [
    { id: "hat-line", d: "M0 24H110" },
    { id: "scarf-top", d: "M-10 46Q52 56 120 46" },
    { id: "scarf-bottom", d: "M-10 55Q52 65 120 55" },
    { id: "eye-left", d: circle(44, 34, 1) },
    { id: "eye-right", d: circle(60, 34, 1) },
    { id: "nose", d: "M52 39L52 42" },
    { id: "button-1", d: ellipse(52, 74, 2.2, 2.2) },
    { id: "button-2", d: ellipse(52, 88, 2.2, 2.2) },
    { id: "button-3", d: ellipse(52, 102, 2.2, 2.2) },
  ],
});
