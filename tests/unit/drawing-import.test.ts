import { describe, expect, test } from "vitest";
import type { Drawing } from "#shared/drawing/drawing.ts";
import type { SvgFault } from "#shared/drawing/drawing-fault.ts";
import { importSvg, type SvgOptions } from "#shared/drawing/import-svg.ts";
import { measureDrawing } from "#shared/drawing/measures.ts";
import { english } from "#shared/words/en/index.ts";
import { spanish } from "#shared/words/es/index.ts";

const svg = (body: string, attributes = 'width="80mm" viewBox="0 0 100 100"'): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" ${attributes}>${body}</svg>`;
const COOKIE = '<path d="M0 0H100V100H0Z" fill="#e6c48d"/>';

function imported(text: string, options?: SvgOptions): Drawing {
  const drawing = importSvg(text, options);
  if (!drawing.ok) throw new Error(JSON.stringify(drawing.refusal));
  return drawing.value;
}

describe("G11 what becomes what", () => {
  test("the largest closed shape is the outline, fills are areas with their colour, strokes lines with their width", () => {
    const { widthMm, outline, areas, lines } = imported(
      svg(`<circle cx="50" cy="50" r="10" fill="tomato" stroke="black"/>${COOKIE}
        <rect x="10" y="10" width="20" height="10" rx="2" style="fill: rgb(0,0,255); stroke-width:4"/>
        <ellipse cx="50" cy="80" rx="9" ry="4" fill="url(#shine)"/>
        <polygon points="70,70 90,70 80,90"/>
        <path d="M5 40L95 40" fill="none" stroke="#123" stroke-width="2.5"/>
        <polyline points="5,60 50,65 95,60" fill="none" stroke="navy"/>
        <line x1="5" y1="95" x2="95" y2="95" stroke="red"/>
        <path d="M0 0" /><path d="M3 3L9 9" fill="none"/><rect width="0" height="9"/>`),
    );
    expect([widthMm, outline]).toEqual([80, "M0 0L80 0L80 80L0 80Z"]);
    expect(areas.map(({ id, colourHint }) => [id, colourHint])).toEqual([
      ["area-1", "#ff6347"],
      ["area-2", "#0000ff"],
      ["area-3", undefined],
      ["area-4", "#000000"],
    ]);
    expect(lines.map(({ id, d, widthMm, colourHint }) => [id, d, widthMm, colourHint])).toEqual([
      ["line-1", "M4 32L76 32", 2, "#112233"],
      ["line-2", "M4 48L40 52L76 48", 0.8, "#000080"],
      ["line-3", "M4 76L76 76", 0.8, "#ff0000"],
    ]);
  });

  test("an outline without a fill is one, and a closed stroke inside it is a line", () => {
    const { areas, lines } = imported(
      svg(
        `<g fill="none" stroke="black"><path d="M0 0H100V100H0Z"/><circle cx="50" cy="50" r="20"/></g><circle cx="20" cy="20" r="9"/>`,
      ),
    );
    expect([areas.length, lines.length]).toEqual([1, 1]);
    expect(lines[0]!.d).toMatch(/Z$/);
  });

  test("a file with an outline and no more gets one area within the margin", () => {
    const { areas } = imported(svg(COOKIE), { widthMm: 80, marginMm: 5 });
    expect(
      areas.map(({ id, d }) => [
        id,
        measureDrawing(imported(svg(COOKIE), { marginMm: 5 })).areas.get(id)?.areaMm2,
        d.length > 0,
      ]),
    ).toEqual([["field", 4900, true]]);
  });

  test("a ring inside another is a hole where the file's rule leaves one, and filled where it does not", () => {
    const same = "M10 10H50V50H10ZM20 20H40V40H20Z";
    const opposite = "M10 10H50V50H10ZM20 20V40H40V20Z";
    const areaOf = (path: string): number =>
      measureDrawing(imported(svg(COOKIE + path), { widthMm: 100 })).areas.get("area-1")!.areaMm2;
    expect(areaOf(`<path d="${same}"/>`)).toBeCloseTo(1600, 0);
    expect(areaOf(`<path d="${opposite}"/>`)).toBeCloseTo(1200, 0);
    expect(areaOf(`<path d="${same}" fill-rule="evenodd"/>`)).toBeCloseTo(1200, 0);
    // Overlapping pieces of one path are filled together.
    expect(areaOf('<path d="M10 10H50V50H10ZM30 30H70V70H30Z"/>')).toBeCloseTo(2800, 0);
  });
});

describe("G12 size and place", () => {
  test("transforms of nested groups apply, innermost first", () => {
    const drawing = imported(
      svg(`${COOKIE}<g transform="translate(50 50)"><g transform="rotate(90) scale(2, 2)"><path transform="translate(5,0)" d="M0 -2h5v4h-5z" fill="red"/>
        <path d="M0 0H10" fill="none" stroke="red" stroke-width="1"/></g></g>`),
      { widthMm: 100 },
    );
    expect(drawing.areas[0]!.d).toBe("M54 60L54 70L46 70L46 60Z");
    expect(drawing.lines[0]).toMatchObject({ d: "M50 50L50 70", widthMm: 2 });
  });

  test.each([
    ['width="85mm" viewBox="0 0 100 100"', undefined, 85],
    ['width="8.5cm" viewBox="0 0 200 200"', undefined, 42.5],
    ['width="3in" viewBox="0,0,100,100"', undefined, 76.2],
    ['width="100mm"', undefined, 26.46],
    ['width="500" viewBox="0 0 100 100"', 60, 60],
    ['width="85mm" viewBox="0 0 100 100"', 60, 60],
  ])("%s, asked for %s: %f mm", (attributes, widthMm, expected) => {
    expect(imported(svg(COOKIE, attributes), widthMm === undefined ? {} : { widthMm }).widthMm).toBeCloseTo(
      expected,
      2,
    );
  });
});

test("G13 nothing is kept but paths, widths and colours", () => {
  const text =
    svg(`<script>alert(1)</script><style>path{fill:red}</style><title>t</title><image href="http://example.invalid/x.png"/>
    <foreignObject><body><script>1</script></body></foreignObject><text>hello</text><defs><circle r="40"/></defs>
    <clipPath><circle r="900"/></clipPath><a href="javascript:alert(1)" onclick="x()">${COOKIE}<circle cx="50" cy="50" r="9" id="javascript" onload="x()" fill="red"/></a>
    <g display="none"><circle r="500"/></g><path style="display:none" d="M0 0H900V900Z"/>`);
  const drawing = imported(text);
  expect(Object.keys(drawing).toSorted()).toEqual(["areas", "heightMm", "lines", "outline", "widthMm"]);
  expect(drawing.areas.map((area) => Object.keys(area).toSorted())).toEqual([["colourHint", "d", "id"]]);
  expect(JSON.stringify(drawing)).not.toMatch(/script|http|alert|hello|onload/i);
});

const zigzag = (count: number): string =>
  Array.from({ length: count }, (_, k) => (k % 2 === 0 ? `L 99 ${k / 20}` : `L 1 ${k / 20}`)).join("");
const scribble = `M50 50${Array.from({ length: 1900 }, (_, k) => `L${50 + 45 * Math.cos(2.9 * k)} ${50 + 45 * Math.sin(2.9 * k)}`).join("")}Z`;

const FAULTS: [string, string, SvgFault["code"]][] = [
  ["5 MB", svg("x".repeat(5e6)), "too large"],
  ["not an SVG", "hello", "not svg"],
  ["an empty file", "", "not svg"],
  ["a web page", "<html><body/></html>", "not svg"],
  ["a PNG", "\u0089PNG\r\n\u001A\n", "not svg"],
  ["a million brackets", "<".repeat(1e6), "not svg"],
  ["one cut off", svg(COOKIE).slice(0, -9), "broken svg"],
  ["a comment without an end", svg(`${COOKIE}<!-- ${"-x".repeat(400_000)}`), "broken svg"],
  ["an entity bomb", `<!DOCTYPE svg [<!ENTITY a "aa"><!ENTITY b "&a;&a;">]>${svg("&b;")}`, "entities"],
  ["a bomb of nested groups", svg("<g>".repeat(100_000) + "</g>".repeat(100_000)), "too deep"],
  ["copies of copies", svg('<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>'), "copies"],
  ["a hundred thousand elements", svg("<g/>".repeat(100_000)), "too many elements"],
  [
    "sixty thousand attributes",
    svg(`<g ${Array.from({ length: 60_000 }, (_, k) => `a${k}=""`).join(" ")}/>`),
    "too many elements",
  ],
  ["a thousand shapes", svg("<path d='M0 0H1V1Z'/>".repeat(1000)), "too many shapes"],
  ["a path of a million characters", svg(`<path d="M0 0L${"1 1 ".repeat(240_000)}"/>`), "too many points"],
  [
    "a transform of a million blanks",
    svg(`<path transform="${" ".repeat(990_000)}" d="M0 0H9V9Z"/>`),
    "bad path",
  ],
  ["a path that is none", svg(`${COOKIE}<path d="M0 0L5"/>`), "bad path"],
  ["no closed path", svg('<path d="M0 0H50" stroke="red"/>'), "no closed path"],
  ["no shape at all", svg(`<!--${"-x".repeat(490_000)}-->`), "no closed path"],
  ["no size", svg(COOKIE, 'viewBox="0 0 100 100"'), "no width"],
  ["pixels", svg(COOKIE, 'width="100" viewBox="0 0 100 100"'), "no width"],
  ["a cookie of a metre", svg(COOKIE, 'width="1000mm" viewBox="0 0 100 100"'), "size"],
  [
    "numbers past all bounds",
    svg('<rect width="1e30" height="1e30"/><path d="M0 0H1e308V1e308Z"/>'),
    "bad path",
  ],
  ["a self-crossing outline", svg('<path d="M0 0L100 100V0L0 100Z"/>'), "outline crosses itself"],
  ["an outline in two pieces", svg('<path d="M0 0H40V90H0ZM50 0H90V90H50Z"/>'), "outline in pieces"],
  ["an outline scribbled", svg(`<path d="${scribble}"/>`), "too intricate"],
  ["an area scribbled", svg(`${COOKIE}<path d="${scribble}"/>`), "too intricate"],
  ["an area of a thousand teeth", svg(`${COOKIE}<path d="M0 0${zigzag(1800)}Z"/>`), "too intricate"],
  ["an area outside its outline", svg(`${COOKIE}<circle cx="95" cy="50" r="20"/>`), "outside outline"],
  [
    "a line outside its outline",
    svg(`${COOKIE}<path d="M50 50H150" fill="none" stroke="red"/>`),
    "outside outline",
  ],
  [
    "41 areas",
    svg(COOKIE + Array.from({ length: 41 }, (_, k) => `<path d="M${k + 5} 9h3v3h-3z"/>`).join("")),
    "too many areas",
  ],
  [
    "61 lines",
    svg(
      COOKIE +
        Array.from({ length: 61 }, (_, k) => `<path fill="none" stroke="red" d="M${k + 5} 9v3"/>`).join(""),
    ),
    "too many lines",
  ],
];

describe("G15 hostile and faulty files", () => {
  test.each(FAULTS)("%s: refused within 100 ms, with a sentence in each language", (_what, text, code) => {
    let quickestMs = Infinity;
    let refused: SvgFault | undefined;
    // The first run also compiles; on a busy machine the quickest of a few says how long it takes.
    for (let run = 0; run < 5; run++) {
      const startMs = performance.now();
      const drawing = importSvg(text);
      quickestMs = Math.min(quickestMs, performance.now() - startMs);
      refused = drawing.ok ? undefined : drawing.refusal;
    }
    expect(refused?.code).toBe(code);
    expect(quickestMs).toBeLessThan(100);
    for (const language of [english, spanish])
      for (const units of ["metric", "us"] as const) {
        const sentence = language(units, "UTC").drawings.fault(refused!);
        expect(sentence).toMatch(/\S.{20,}[.]$/);
        expect(sentence).not.toMatch(/undefined|NaN|\[object/);
      }
  });

  test("a fault names the part in the reader's language", () => {
    const fault: SvgFault = { code: "area crosses itself", part: "area-2" };
    expect(english("metric", "UTC").drawings.fault(fault)).toContain("“area 2”");
    expect(spanish("metric", "UTC").drawings.fault(fault)).toContain("«zona 2»");
  });
});
