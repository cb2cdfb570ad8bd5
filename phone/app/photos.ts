import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import { type Asked, askFault } from "#phone/ui/ask.ts";

/** A photo that a design was traced from, and the trace over it as JSON. */
export interface TracedPhoto {
  jpeg: Blob;
  widthPx: number;
  heightPx: number;
  trace: string;
}

/** Photos of designs: kept on this device alone, and those that a lead shared with the kitchen. */
export interface Photos {
  /** A picture's file as a JPEG of at most 400 kB; undefined of what is no picture. */
  scaled: (file: Blob) => Promise<Omit<TracedPhoto, "trace"> | undefined>;
  kept: (designId: string) => Promise<TracedPhoto | undefined>;
  /** Resolves also where the browser keeps nothing: then it is gone with the page. */
  keep: (designId: string, photo: TracedPhoto) => Promise<void>;
  drop: (designId: string) => void;
  /** What a lead shared; undefined where nobody did, or the server does not answer. */
  shared: (designId: string) => Promise<Blob | undefined>;
  share: (designId: string, jpeg: Blob) => Promise<Asked<unknown>>;
  /** On leaving the kitchen: none stays on this device. */
  clear: () => void;
}

interface PhotoDb extends DBSchema {
  photos: { key: string; value: TracedPhoto };
}

export function createPhotos(send: typeof fetch, token: () => string): Photos {
  let db: Promise<IDBPDatabase<PhotoDb>> | undefined;
  /** Opened with the first call. Rejects where the browser allows no storage. */
  const opened = async (): Promise<IDBPDatabase<PhotoDb>> =>
    (db ??= openDB<PhotoDb>("traytide-photos", 1, {
      upgrade: (fresh) => void fresh.createObjectStore("photos"),
    }));
  const path = (designId: string): string => `/api/designs/${encodeURIComponent(designId)}/photo`;
  const headers = (): Record<string, string> => ({ authorization: `Bearer ${token()}` });
  const quietly = (write: Promise<unknown>): Promise<void> =>
    write.then(
      () => undefined,
      () => undefined,
    );
  return {
    // With all else that a photo is traced with.
    scaled: async (file) => (await import("#phone/designs/trace/scaled-photo.ts")).scaledPhoto(file),
    kept: (designId) =>
      opened()
        .then((db) => db.get("photos", designId))
        .catch(() => undefined),
    keep: (designId, photo) => quietly(opened().then((db) => db.put("photos", photo, designId))),
    drop: (designId) => void quietly(opened().then((db) => db.delete("photos", designId))),
    clear: () => void quietly(opened().then((db) => db.clear("photos"))),
    async shared(designId) {
      try {
        const response = await send(path(designId), { headers: headers() });
        return response.status === 200 ? await response.blob() : undefined;
      } catch {
        return undefined;
      }
    },
    async share(designId, jpeg) {
      try {
        const response = await send(path(designId), {
          method: "PUT",
          headers: { ...headers(), "content-type": "image/jpeg" },
          body: jpeg,
        });
        const body = (await response.json()) as { message?: string };
        return response.ok
          ? { ok: true, value: body }
          : { ok: false, fault: askFault(response.status, body) };
      } catch {
        return { ok: false, fault: { code: "no-answer" } };
      }
    },
  };
}
