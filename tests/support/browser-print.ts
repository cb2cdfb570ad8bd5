import jsQR from "jsqr";
import type { Locator, Page } from "playwright";
import { getDocumentProxy } from "unpdf";

/** A text on a page of a PDF: where it begins, mm from the page's left and top edges. */
export interface PrintedText {
  text: string;
  leftMm: number;
  topMm: number;
}

export interface PrintedPage {
  widthMm: number;
  heightMm: number;
  texts: readonly PrintedText[];
}

const POINT_MM = 25.4 / 72;

/** What the page prints, on the paper that its own styles ask for. */
export async function printed(page: Page): Promise<PrintedPage[]> {
  const pdf = await getDocumentProxy(new Uint8Array(await page.pdf({ preferCSSPageSize: true })));
  const pages: PrintedPage[] = [];
  for (let number = 1; number <= pdf.numPages; number += 1) {
    const one = await pdf.getPage(number);
    const [, , width = 0, height = 0] = one.view;
    const { items } = await one.getTextContent();
    const texts = items.flatMap((item): PrintedText[] => {
      if (!("str" in item) || item.str.trim() === "") return [];
      const [x, y] = [Number(item.transform[4]), Number(item.transform[5])];
      return [{ text: item.str, leftMm: x * POINT_MM, topMm: (height - y) * POINT_MM }];
    });
    pages.push({ widthMm: width * POINT_MM, heightMm: height * POINT_MM, texts });
  }
  return pages;
}

/** Side of the square a code is drawn on to be read, px. */
const SIDE_PX = 300;

/** What a QR code on a page says, read from its picture. */
export async function readCode(code: Locator): Promise<string | undefined> {
  const pixels = await code.evaluate(async (svg, side) => {
    const image = new Image(side, side);
    const copy = svg.cloneNode(true) as SVGSVGElement;
    copy.setAttribute("width", String(side));
    copy.setAttribute("height", String(side));
    image.src = `data:image/svg+xml,${encodeURIComponent(new XMLSerializer().serializeToString(copy))}`;
    await image.decode();
    const canvas = document.createElement("canvas");
    canvas.width = side;
    canvas.height = side;
    const context = canvas.getContext("2d")!;
    context.drawImage(image, 0, 0, side, side);
    return [...context.getImageData(0, 0, side, side).data];
  }, SIDE_PX);
  return jsQR(Uint8ClampedArray.from(pixels), SIDE_PX, SIDE_PX)?.data;
}
