import type { IncomingMessage } from "node:http";
import type { RequestHandler } from "express";
import { Fault } from "./fault.ts";

/**
 * Who may be asked for what: the Host must be a name or address of this machine (else a page elsewhere could point a
 * name of its own at it), and an Origin, where a browser sends one, must be the very host asked.
 * Returns why not, or undefined.
 */
export type HostRule = (request: IncomingMessage) => Fault | undefined;

/** A rule over the names and addresses known now; `names` is asked each time, since addresses change. */
export function hostRule(names: () => ReadonlySet<string>): HostRule {
  return (request) => {
    const { host, origin } = request.headers;
    const url = host === undefined || /[^\w.:[\]-]/.test(host) ? undefined : parse(`http://${host}`);
    if (url === undefined || !names().has(url.hostname.toLowerCase())) {
      return new Fault("foreign-host", ({ server }) => server.http.foreignHost);
    }
    if (origin !== undefined && parse(origin)?.host !== parse(`${schemeOf(origin)}//${host}`)?.host) {
      return new Fault("foreign-origin", ({ server }) => server.http.foreignOrigin);
    }
    return undefined;
  };
}

const parse = (url: string): URL | undefined => (URL.canParse(url) ? new URL(url) : undefined);

/** An Origin's scheme, so that its default port compares equal to a Host without one. */
const schemeOf = (origin: string): string => (origin.startsWith("https:") ? "https:" : "http:");

/** The rule on every HTTP request. */
export const guardHost =
  (rule: HostRule): RequestHandler =>
  (request, _response, next) =>
    next(rule(request));
