import type { SvgFault } from "#shared/drawing/drawing-fault.ts";
import { own } from "#shared/collections.ts";
import { unreachable } from "#shared/outcome.ts";
import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";

const PARTS: Words["drawings"]["parts"] = {
  area: "zona",
  "bar-left": "barra izquierda",
  "bar-right": "barra derecha",
  base: "pie",
  "base-line": "línea del pie",
  body: "cuerpo",
  "body-ring": "línea del cuerpo",
  bottom: "franja inferior",
  "bottom-left": "abajo a la izquierda",
  "bottom-right": "abajo a la derecha",
  button: "botón",
  crater: "cráter",
  cuff: "puño",
  "cuff-line": "línea del puño",
  deck: "cubierta",
  door: "puerta",
  "door-frame": "marco de la puerta",
  eaves: "alero",
  edge: "línea del borde",
  eye: "ojo",
  "eye-left": "ojo izquierdo",
  "eye-right": "ojo derecho",
  "eye-ring": "línea del centro",
  face: "cara",
  "face-line": "línea de la cara",
  fan: "abanico",
  field: "toda la galleta",
  flute: "estría",
  frame: "marco",
  "frame-left": "marco de la ventana izquierda",
  "frame-right": "marco de la ventana derecha",
  froth: "espuma",
  "froth-line": "línea de la espuma",
  garland: "guirnalda",
  gill: "agalla",
  glass: "cristal",
  grip: "hueco del asa",
  hand: "mano",
  handle: "asa",
  "handle-line": "línea del asa",
  hat: "sombrero",
  "hat-line": "línea del sombrero",
  head: "cabeza",
  heart: "corazón",
  hinge: "charnela",
  "hinge-line": "línea de la charnela",
  hull: "casco",
  jib: "foque",
  knot: "nudo",
  "knot-line": "línea del nudo",
  left: "mitad izquierda",
  letter: "letra",
  line: "línea",
  mast: "mástil",
  middle: "franja central",
  midrib: "nervio central",
  nose: "nariz",
  petal: "pétalo",
  "petal-line": "línea de pétalo",
  ray: "rayo",
  rib: "canalé",
  right: "mitad derecha",
  ring: "línea interior",
  roof: "tejado",
  "roof-line": "línea del tejado",
  sail: "vela",
  scales: "escamas",
  scallops: "ondas",
  scarf: "bufanda",
  "scarf-bottom": "bufanda, línea inferior",
  "scarf-top": "bufanda, línea superior",
  shine: "brillo",
  side: "costado",
  spar: "travesaño",
  spine: "varilla central",
  "spot-bottom-left": "mancha inferior izquierda",
  "spot-bottom-right": "mancha inferior derecha",
  "spot-top-left": "mancha superior izquierda",
  "spot-top-right": "mancha superior derecha",
  tail: "cola",
  "tail-line": "línea de la cola",
  "tail-ray": "radio de la cola",
  tier: "piso",
  top: "franja superior",
  "top-left": "arriba a la izquierda",
  "top-right": "arriba a la derecha",
  trunk: "tronco",
  "vein-left": "nervio izquierdo",
  "vein-right": "nervio derecho",
  wall: "pared",
  waterline: "línea de flotación",
  wave: "onda",
  "window-left": "ventana izquierda",
  "window-right": "ventana derecha",
  "wing-bottom-left": "ala inferior izquierda",
  "wing-bottom-right": "ala inferior derecha",
  "wing-line-left": "línea del ala izquierda",
  "wing-line-right": "línea del ala derecha",
  "wing-top-left": "ala superior izquierda",
  "wing-top-right": "ala superior derecha",
  zigzag: "línea en zigzag",
};

export const drawings = (format: Formats): Words["drawings"] => {
  const { name, length, number } = format;
  const part = (id: string): string => {
    const [, stem = id, number] = /^(.*?)(?:-(\d+))?$/.exec(id) ?? [];
    const word = own(PARTS, stem);
    if (word === undefined) return name(id);
    return number === undefined ? word : `${word} ${number}`;
  };
  const named = (id: string): string => `«${part(id)}»`;
  return {
    templates: {
      round: "Redonda",
      oval: "Ovalada",
      square: "Cuadrada",
      plaque: "Placa",
      scallop: "Redonda ondulada",
      heart: "Corazón",
      star: "Estrella",
      moon: "Luna",
      egg: "Huevo",
      flower: "Flor",
      leaf: "Hoja",
      tree: "Abeto",
      shell: "Concha",
      fish: "Pez",
      butterfly: "Mariposa",
      kite: "Cometa",
      boat: "Barco",
      lantern: "Farol",
      house: "Casa",
      mitten: "Manopla",
      mug: "Taza",
      block: "Cubo con letra",
      balloon: "Globo",
      snowman: "Muñeco de nieve",
    },
    parts: PARTS,
    part,
    fault(fault: SvgFault): string {
      switch (fault.code) {
        case "bad path":
          return fault.part === undefined
            ? "No se puede leer una línea de este dibujo: dibújela de nuevo."
            : `No se puede leer ${named(fault.part)}: dibújelo de nuevo o guarde el archivo como SVG simple.`;
        case "same id":
          return `Dos partes se llaman ${named(fault.part)}: ponga otro identificador a una de ellas.`;
        case "too many points":
          return `El dibujo tiene más de ${number(fault.most)} puntos: simplifique sus trazados e inténtelo de nuevo.`;
        case "too many areas":
          return `El dibujo tiene ${number(fault.count)} zonas y el máximo es ${number(fault.most)}: una las zonas de un mismo color o quite algunas.`;
        case "too many lines":
          return `El dibujo tiene ${number(fault.count)} líneas y el máximo es ${number(fault.most)}: una líneas o quite algunas.`;
        case "line width":
          return `La línea ${named(fault.part)} debe tener un ancho de ${length(fault.minMm)} a ${length(fault.maxMm)}.`;
        case "size":
          return `La galleta mediría ${length(fault.widthMm)} × ${length(fault.heightMm)}: cada lado debe medir de ${length(fault.minMm)} a ${length(fault.maxMm)}. Escriba otro ancho.`;
        case "too intricate":
          return fault.part === undefined
            ? "El contorno da demasiadas vueltas para una galleta: simplifíquelo."
            : `${named(fault.part)} da demasiadas vueltas para un glaseado: simplifíquelo o quítelo.`;
        case "margin":
          return `Un margen de ${length(fault.marginMm)} no deja sitio para el glaseado: escriba uno más estrecho.`;
        case "outline in pieces":
          return "El contorno tiene varias piezas: dibuje una sola línea cerrada alrededor de toda la galleta.";
        case "outline crosses itself":
          return "El contorno se cruza a sí mismo: mueva sus puntos para que rodee la galleta una sola vez.";
        case "area crosses itself":
          return `El borde de ${named(fault.part)} se cruza a sí mismo: mueva sus puntos para que dé una sola vuelta.`;
        case "no area":
          return `${named(fault.part)} no encierra nada: dibújelo más grande o quítelo.`;
        case "outside outline":
          return `${named(fault.part)} se sale del contorno: muévalo hacia dentro o dibuje una línea cerrada alrededor de toda la galleta.`;
        case "too large":
          return `El archivo pesa más de ${number(fault.mostBytes / 1e6, 1)} MB: quite las imágenes o simplifique sus trazados.`;
        case "not svg":
          return "Este archivo no es un SVG: guarde el dibujo como SVG y elija ese archivo.";
        case "broken svg":
          return `El SVG está dañado en la línea ${number(fault.line)}: guárdelo de nuevo desde su programa de dibujo.`;
        case "entities":
          return "El SVG define entidades, que no se abren: guárdelo de nuevo como SVG simple.";
        case "too many shapes":
          return `El SVG tiene más de ${number(fault.most)} formas: deje solo el contorno, las zonas y las líneas de la galleta.`;
        case "copies":
          return "El SVG repite formas por referencia: convierta las copias enlazadas en trazados en su programa de dibujo y guárdelo de nuevo.";
        case "too deep":
          return `El SVG tiene grupos dentro de grupos, más de ${number(fault.most)} niveles: desagrúpelos y guárdelo de nuevo.`;
        case "too many elements":
          return `El SVG tiene más de ${number(fault.most)} elementos: deje solo el contorno, las zonas y las líneas de la galleta.`;
        case "no width":
          return "El SVG no dice qué tamaño tiene: escriba el ancho de la galleta.";
        case "no closed path":
          return "El SVG no tiene ningún trazado cerrado: dibuje una línea cerrada alrededor de la galleta y guárdelo de nuevo.";
        default:
          return unreachable(fault);
      }
    },
  };
};
