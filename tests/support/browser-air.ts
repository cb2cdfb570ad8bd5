import { connect, createServer, type Socket } from "node:net";

/** The air between one screen and the server: a forwarder of bytes that can fall silent, as Wi-Fi does out of reach. */
export interface Air {
  port: number;
  /** Nothing passes, nothing is closed: what is sent now arrives late. */
  cut: () => void;
  /** Pages and answers pass, the live socket does not. */
  pagesOnly: () => void;
  mend: () => void;
  close: () => void;
}

/** Forwards to the port that `to` names at the moment of connecting. */
export async function openAir(to: () => number): Promise<Air> {
  let state: "open" | "cut" | "pages only" = "open";
  const sockets = new Set<Socket>();
  const catchUp = new Set<() => void>();

  function keep(socket: Socket): Socket {
    sockets.add(socket);
    socket.setNoDelay(true);
    socket.on("error", () => socket.destroy());
    socket.on("close", () => sockets.delete(socket));
    return socket;
  }
  function carry(screen: Socket, first: Buffer): void {
    const isLive = /^upgrade: websocket/im.test(first.toString("latin1"));
    const isHeld = (): boolean => state === "cut" || (state === "pages only" && isLive);
    const late: (() => void)[] = [];
    const flush = (): void => {
      while (!isHeld()) {
        const act = late.shift();
        if (act === undefined) return;
        act();
      }
    };
    const deliver = (act: () => void): void => {
      late.push(act);
      flush();
    };
    const upstream = keep(connect(to(), "127.0.0.1"));
    const forward = (from: Socket, into: Socket): void => {
      from.on("data", (chunk) => deliver(() => into.write(chunk)));
      from.on("close", () => deliver(() => into.destroy()));
    };
    forward(screen, upstream);
    forward(upstream, screen);
    deliver(() => upstream.write(first));
    catchUp.add(flush);
    screen.on("close", () => late.length === 0 && catchUp.delete(flush));
  }
  function become(next: typeof state): void {
    state = next;
    for (const flush of catchUp) flush();
  }

  const server = createServer((screen) => {
    keep(screen).once("data", (first) => carry(screen, first));
  });
  await new Promise<void>((resolve) => void server.listen(0, "127.0.0.1", resolve));
  const address = server.address();
  return {
    port: typeof address === "object" && address !== null ? address.port : 0,
    cut: () => become("cut"),
    pagesOnly: () => become("pages only"),
    mend: () => become("open"),
    close: () => {
      server.close();
      for (const socket of sockets) socket.destroy();
    },
  };
}
