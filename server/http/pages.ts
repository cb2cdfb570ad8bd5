import { extname, join } from "node:path";
import express, { type RequestHandler, Router } from "express";
import { languageAsked } from "#server/words.ts";

const YEAR_S = 365 * 24 * 3600;

export interface PagesDeps {
  /** Serves the two screens and their files: `builtScreens`, or Vite while developing. */
  screens: RequestHandler;
  /** The local CA's certificate, where TLS is served. */
  caPem?: string;
}

/** The pages: what this screen is, the wall, the phone, a tray's label. */
export function pagesRouter({ screens, caPem }: PagesDeps): Router {
  const pages = Router();
  pages.get("/", (request, response, next) => {
    response.vary("Accept-Language");
    request.url = `/server/welcome/${languageAsked(request)}.html`;
    next();
  });
  if (caPem !== undefined) {
    pages.get("/ca.crt", (_request, response) => {
      response.type("application/x-x509-ca-cert").attachment("traytide-ca.crt").send(caPem);
    });
  }
  pages.get("/t/:number", (request, response, next) => {
    if (!/^[1-9]\d{0,3}$/.test(request.params.number)) return next();
    response.redirect(302, `/phone/#/t/${request.params.number}`);
  });
  pages.get(["/display", "/phone"], (request, response, next) => {
    // Also matches with the slash, which is the page itself.
    if (request.path.endsWith("/")) return next();
    response.redirect(302, `${request.path}/`);
  });
  pages.get(["/display/{*rest}", "/phone/{*rest}"], (request, _response, next) => {
    // A deep link is the screen's own affair; a file is a file.
    if (extname(request.path) === "")
      request.url = request.path.startsWith("/phone/") ? "/phone/" : "/display/";
    next();
  });
  pages.use(screens);
  return pages;
}

/** The built screens: hashed files may be kept for ever, pages and the service worker are asked for each time. */
export function builtScreens(folder: string): RequestHandler {
  const assets = join(folder, "assets");
  return express.static(folder, {
    redirect: false,
    dotfiles: "allow",
    setHeaders: (response, path) => {
      const isHashed = path.startsWith(assets);
      response.setHeader("Cache-Control", isHashed ? `public, max-age=${YEAR_S}, immutable` : "no-cache");
    },
  });
}
