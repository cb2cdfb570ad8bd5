import express, { type RequestHandler, Router } from "express";
import * as v from "valibot";
import { DesignId } from "#shared/ids.ts";
import { LIMITS } from "#shared/limits.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { PhotoStore } from "#server/log/store.ts";
import type { WhoAsks } from "./caller.ts";
import { Fault, parsed } from "./fault.ts";

const PhotoPath = v.object({ designId: DesignId });

/** `PUT` and `GET /designs/ID/photo`: a JPEG that a lead shares, for every device that joined. */
export function photoRoutes(deps: { photos: PhotoStore; kitchen: () => Kitchen; asks: WhoAsks }): Router {
  const { photos, kitchen, asks } = deps;
  const routes = Router();
  const known = (raw: unknown): DesignId => {
    const { designId } = parsed(PhotoPath, raw);
    if (kitchen().designs[designId] !== undefined) return designId;
    throw new Fault("not-found", ({ server }) => server.http.noDesign(designId), "designId");
  };
  // Who asks is known before anything of the body is read.
  const isLead: RequestHandler = async (request, _response, next) => {
    await asks(request, "lead");
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
    await asks(request);
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
