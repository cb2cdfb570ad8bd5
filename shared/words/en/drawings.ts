import type { SvgFault } from "#shared/drawing/drawing-fault.ts";
import type { TemplateName } from "#shared/drawing/templates/templates.ts";
import { own } from "#shared/collections.ts";
import { unreachable } from "#shared/outcome.ts";
import type { Formats } from "#shared/words/formats.ts";

/** Parts of templates and of imported drawings, by their ids without the number. */
const PARTS = {
  area: "area",
  "bar-left": "left bar",
  "bar-right": "right bar",
  base: "base",
  "base-line": "base line",
  body: "body",
  "body-ring": "body line",
  bottom: "bottom band",
  "bottom-left": "bottom left",
  "bottom-right": "bottom right",
  button: "button",
  crater: "crater",
  cuff: "cuff",
  "cuff-line": "cuff line",
  deck: "deck",
  door: "door",
  "door-frame": "door frame",
  eaves: "eaves",
  edge: "edge line",
  eye: "eye",
  "eye-left": "left eye",
  "eye-right": "right eye",
  "eye-ring": "eye line",
  face: "face",
  "face-line": "face line",
  fan: "fan",
  field: "whole cookie",
  flute: "flute",
  frame: "frame",
  "frame-left": "left window frame",
  "frame-right": "right window frame",
  froth: "froth",
  "froth-line": "froth line",
  garland: "garland",
  gill: "gill",
  glass: "glass",
  grip: "grip",
  hand: "hand",
  handle: "handle",
  "handle-line": "handle line",
  hat: "hat",
  "hat-line": "hat line",
  head: "head",
  heart: "heart",
  hinge: "hinge",
  "hinge-line": "hinge line",
  hull: "hull",
  jib: "jib",
  knot: "knot",
  "knot-line": "knot line",
  left: "left half",
  letter: "letter",
  line: "line",
  mast: "mast",
  middle: "middle band",
  midrib: "midrib",
  nose: "nose",
  petal: "petal",
  "petal-line": "petal line",
  ray: "ray",
  rib: "rib",
  right: "right half",
  ring: "inner line",
  roof: "roof",
  "roof-line": "roof line",
  sail: "sail",
  scales: "scales",
  scallops: "scallops",
  scarf: "scarf",
  "scarf-bottom": "scarf, lower line",
  "scarf-top": "scarf, upper line",
  shine: "shine",
  side: "side",
  spar: "cross spar",
  spine: "spine",
  "spot-bottom-left": "bottom left spot",
  "spot-bottom-right": "bottom right spot",
  "spot-top-left": "top left spot",
  "spot-top-right": "top right spot",
  tail: "tail",
  "tail-line": "tail line",
  "tail-ray": "tail ray",
  tier: "tier",
  top: "top band",
  "top-left": "top left",
  "top-right": "top right",
  trunk: "trunk",
  "vein-left": "left vein",
  "vein-right": "right vein",
  wall: "wall",
  waterline: "waterline",
  wave: "wave",
  "window-left": "left window",
  "window-right": "right window",
  "wing-bottom-left": "bottom left wing",
  "wing-bottom-right": "bottom right wing",
  "wing-line-left": "left wing line",
  "wing-line-right": "right wing line",
  "wing-top-left": "top left wing",
  "wing-top-right": "top right wing",
  zigzag: "zigzag",
};

/** Drawings: templates, their parts, and what is wrong with one. */
export const drawings = (format: Formats) => {
  const { name, length, number } = format;
  const part = (id: string): string => {
    const [, stem = id, number] = /^(.*?)(?:-(\d+))?$/.exec(id) ?? [];
    const word = own(PARTS, stem);
    if (word === undefined) return name(id);
    return number === undefined ? word : `${word} ${number}`;
  };
  const named = (id: string): string => `“${part(id)}”`;
  return {
    templates: {
      round: "Round",
      oval: "Oval",
      square: "Square",
      plaque: "Plaque",
      scallop: "Scalloped round",
      heart: "Heart",
      star: "Star",
      moon: "Moon",
      egg: "Egg",
      flower: "Flower",
      leaf: "Leaf",
      tree: "Fir tree",
      shell: "Shell",
      fish: "Fish",
      butterfly: "Butterfly",
      kite: "Kite",
      boat: "Boat",
      lantern: "Lantern",
      house: "House",
      mitten: "Mitten",
      mug: "Mug",
      block: "Letter block",
      balloon: "Balloon",
      snowman: "Snowman",
    } satisfies Record<TemplateName, string>,
    parts: PARTS,
    /** A part that nobody named, by its id: "petal 3". */
    part,
    /** Why a drawing or an SVG is not taken, and what to do. */
    fault(fault: SvgFault): string {
      switch (fault.code) {
        case "bad path":
          return fault.part === undefined
            ? "A line of this drawing can't be read: draw it again."
            : `${named(fault.part)} can't be read: draw it again, or save the file as plain SVG.`;
        case "same id":
          return `Two parts are called ${named(fault.part)}: give one of them another id.`;
        case "too many points":
          return `The drawing has more than ${number(fault.most)} points: simplify its paths and try again.`;
        case "too many areas":
          return `The drawing has ${number(fault.count)} areas, and at most ${number(fault.most)} are possible: join areas of one ${format.units === "us" ? "color" : "colour"} or leave some out.`;
        case "too many lines":
          return `The drawing has ${number(fault.count)} lines, and at most ${number(fault.most)} are possible: join lines or leave some out.`;
        case "line width":
          return `The line ${named(fault.part)} must be ${length(fault.minMm)} to ${length(fault.maxMm)} wide.`;
        case "size":
          return `The cookie would be ${length(fault.widthMm)} × ${length(fault.heightMm)}: each must be ${length(fault.minMm)} to ${length(fault.maxMm)}. Enter another width.`;
        case "too intricate":
          return fault.part === undefined
            ? "The outline runs to and fro too much for a cookie: simplify it."
            : `${named(fault.part)} runs to and fro too much for icing: simplify it or remove it.`;
        case "margin":
          return `A margin of ${length(fault.marginMm)} leaves no room for icing: enter a narrower one.`;
        case "outline in pieces":
          return "The outline has several pieces: draw one closed line around the whole cookie.";
        case "outline crosses itself":
          return "The outline crosses itself: move its points so that it goes round the cookie once.";
        case "area crosses itself":
          return `The edge of ${named(fault.part)} crosses itself: move its points so that it goes round once.`;
        case "no area":
          return `${named(fault.part)} encloses nothing: draw it larger or remove it.`;
        case "outside outline":
          return `${named(fault.part)} reaches over the outline: move it inside, or draw a closed line around the whole cookie.`;
        case "too large":
          return `The file is larger than ${number(fault.mostBytes / 1e6, 1)} MB: remove pictures from it, or simplify its paths.`;
        case "not svg":
          return "This file is not an SVG: save the drawing as SVG and choose that file.";
        case "broken svg":
          return `The SVG is damaged at line ${number(fault.line)}: save it again from your drawing program.`;
        case "entities":
          return "The SVG defines entities, which are not opened: save it again as plain SVG.";
        case "too many shapes":
          return `The SVG has more than ${number(fault.most)} shapes: keep the cookie's outline, areas and lines only.`;
        case "copies":
          return "The SVG repeats shapes by reference: turn linked copies into paths in your drawing program and save it again.";
        case "too deep":
          return `The SVG has groups inside groups, more than ${number(fault.most)} deep: ungroup them and save it again.`;
        case "too many elements":
          return `The SVG has more than ${number(fault.most)} elements: keep the cookie's outline, areas and lines only.`;
        case "no width":
          return "The SVG doesn't say how large it is: enter how wide the cookie is.";
        case "no closed path":
          return "The SVG has no closed path: draw a closed line around the cookie and save it again.";
        default:
          return unreachable(fault);
      }
    },
  };
};
