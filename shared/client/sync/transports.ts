import { WebSocket } from "engine.io-client";

/** Takes the place of the library's own list in what is built: screens talk over web sockets alone, and need not load how to poll. */
export const transports = {
  get websocket() {
    return WebSocket;
  },
};
