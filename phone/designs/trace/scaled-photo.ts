import { LIMITS } from "#shared/limits.ts";
import type { TracedPhoto } from "#phone/app/photos.ts";

const SIDE_MOST_PX = 1600;
/** Tried in turn until the file is small enough: JPEG quality, and share of the size. */
const TRIES = [
  [0.85, 1],
  [0.7, 1],
  [0.6, 0.75],
  [0.5, 0.5],
  [0.4, 0.3],
] as const;

/** A picture's file as a JPEG that is small enough to be shared; undefined of what is no picture. */
export async function scaledPhoto(file: Blob): Promise<Omit<TracedPhoto, "trace"> | undefined> {
  const bitmap = await createImageBitmap(file).catch(() => undefined);
  if (bitmap === undefined) return undefined;
  const scale = Math.min(1, SIDE_MOST_PX / Math.max(bitmap.width, bitmap.height));
  for (const [quality, share] of TRIES) {
    const canvas = document.createElement("canvas");
    canvas.width = Math.max(1, Math.round(bitmap.width * scale * share));
    canvas.height = Math.max(1, Math.round(bitmap.height * scale * share));
    canvas.getContext("2d")?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
    const jpeg = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, "image/jpeg", quality));
    if (jpeg !== null && jpeg.size <= LIMITS.photoBytes)
      return { jpeg, widthPx: canvas.width, heightPx: canvas.height };
  }
  return undefined;
}
