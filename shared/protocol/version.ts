/** Raised whenever what is sent or stored changes shape; a page that differs from its server is told to reload. */
export const PROTOCOL_VERSION = 4;

/** What a screen gives when it connects to `/live`. A page from before the version was asked for gives none. */
export interface LiveAuth {
  token: string;
  protocol: typeof PROTOCOL_VERSION;
}

/** Why a connection was turned away, where it was for its page's version. The error's `data`. */
export const OUTDATED = { reason: "protocol" } as const;

/** Why a connection was turned away for now: a lead is asked to let the device in. The error's `data`. */
export const WAITS = { reason: "waits" } as const;

/** socket.io namespace of the live board. */
export const LIVE_NAMESPACE = "/live";
