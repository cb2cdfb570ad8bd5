import type { IncomingMessage } from "node:http";
import type { RequestHandler } from "express";
import helmet from "helmet";

/**
 * Strict headers: a page may load and reach this server only. The socket's address is named outright, since older
 * phones do not count ws: as 'self'. No HSTS: a kitchen may go back to plain http.
 */
export function securityHeaders(isSecure: boolean): RequestHandler {
  const socket = (scheme: string) => (request: IncomingMessage) =>
    `${scheme}://${request.headers.host ?? ""}`;
  return helmet({
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'none'"],
        scriptSrc: ["'self'"],
        styleSrc: ["'self'"],
        // Static style attributes in components' templates; markup never comes from data.
        styleSrcAttr: ["'unsafe-inline'"],
        imgSrc: ["'self'", "data:", "blob:"],
        fontSrc: ["'self'"],
        mediaSrc: ["'self'", "data:", "blob:"],
        connectSrc: ["'self'", socket("ws"), socket("wss")],
        manifestSrc: ["'self'"],
        workerSrc: ["'self'"],
        baseUri: ["'none'"],
        formAction: ["'self'"],
        frameAncestors: ["'none'"],
      },
    },
    strictTransportSecurity: false,
    // Browsers heed these over TLS only, and complain elsewhere.
    crossOriginOpenerPolicy: isSecure,
    originAgentCluster: isSecure,
    referrerPolicy: { policy: "no-referrer" },
    xFrameOptions: { action: "deny" },
  });
}
