import { mkdir, readdir, readFile, rename, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import express, { type RequestHandler, Router } from "express";
import * as v from "valibot";
import { DesignId } from "#shared/ids.ts";
import { LIMITS } from "#shared/limits.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { WhoAsks } from "./caller.ts";
import { Fault, parsed } from "./fault.ts";

/** Photos of designs, a file each in a folder of the kitchen's data. */
export interface DesignPhotos {
  get: (designId: DesignId) => Promise<Buffer | undefined>;
  put: (designId: DesignId, jpeg: Buffer) => Promise<void>;
  remove: (designId: string) => Promise<void>;
  /** Removes those of designs that are gone. */
  sweep: (designs: Kitchen["designs"]) => Promise<void>;
}

const EXTENSION = ".jpg";

/** The folder is made with the first photo. Ids are safe as file names by their schema. */
export function designPhotos(folder: string): DesignPhotos {
  const fileOf = (designId: string): string => join(folder, `${designId}${EXTENSION}`);
  const remove = (designId: string): Promise<void> => rm(fileOf(designId), { force: true });
  return {
    remove,
    get: (designId) =>
      readFile(fileOf(designId)).catch((error: NodeJS.ErrnoException) => {
        if (error.code === "ENOENT") return undefined;
        throw error;
      }),
    async put(designId, jpeg) {
      await mkdir(folder, { recursive: true, mode: 0o700 });
      // Whoever reads meanwhile gets the old one or the new one, never a part.
      const written = `${fileOf(designId)}.new`;
      await writeFile(written, jpeg, { mode: 0o600 });
      await rename(written, fileOf(designId));
    },
    async sweep(designs) {
      const files = await readdir(folder).catch(() => []);
      const ids = files
        .filter((file) => file.endsWith(EXTENSION))
        .map((file) => file.slice(0, -EXTENSION.length));
      await Promise.all(ids.filter((id) => designs[id] === undefined).map(remove));
    },
  };
}

const PhotoPath = v.object({ designId: DesignId });

/** `PUT` and `GET /designs/ID/photo`: a JPEG that a lead shares, for every device that joined. */
export function photoRoutes(deps: { photos: DesignPhotos; kitchen: () => Kitchen; asks: WhoAsks }): Router {
  const { photos, kitchen, asks } = deps;
  const routes = Router();
  const known = (raw: unknown): DesignId => {
    const { designId } = parsed(PhotoPath, raw);
    if (kitchen().designs[designId] !== undefined) return designId;
    throw new Fault("not-found", ({ server }) => server.http.noDesign(designId), "designId");
  };
  // Who asks is known before anything of the body is read.
  const isLead: RequestHandler = (request, _response, next) => {
    asks(request, "lead");
    next();
  };
  const jpeg = express.raw({ type: () => true, limit: LIMITS.photoBytes });
  routes.put("/designs/:designId/photo", isLead, jpeg, async (request, response) => {
    const designId = known(request.params);
    const body: unknown = request.body;
    if (!isJpeg(body)) throw new Fault("malformed", ({ server }) => server.http.notJpeg, "body");
    await photos.put(designId, body);
    response.json({ ok: true });
  });
  routes.get("/designs/:designId/photo", async (request, response) => {
    asks(request);
    const designId = known(request.params);
    const found = await photos.get(designId);
    // That nobody shared one is no mistake of whoever asks.
    if (found === undefined) response.status(204).end();
    else response.type("image/jpeg").send(found);
  });
  return routes;
}

/** By how such a file begins. */
const isJpeg = (body: unknown): body is Buffer =>
  Buffer.isBuffer(body) && body.length > 3 && body[0] === 0xff && body[1] === 0xd8 && body[2] === 0xff;
