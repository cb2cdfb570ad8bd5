import type { Formats } from "./formats.ts";

/** "340 kB", "12.3 MB", "1.4 GB". */
export const fileSize = (format: Formats, bytes: number): string => {
  if (bytes < 1e6) return `${format.number(Math.ceil(bytes / 1000))} kB`;
  return bytes < 1e9 ? `${format.number(bytes / 1e6, 1)} MB` : `${format.number(bytes / 1e9, 1)} GB`;
};
