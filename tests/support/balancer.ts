import { connect, createServer, type Socket } from "node:net";

/** One address before several servers on this machine: each connection goes to the next that takes it. */
export interface Balancer {
  port: number;
  /** The ports it passes on to from now on. */
  pointTo: (...ports: number[]) => void;
  close: () => void;
}

export async function openBalancer(...first: number[]): Promise<Balancer> {
  let ports = first;
  let turn = 0;
  const open = new Set<Socket>();

  /** Joins a client to the next server; one that is dead is passed over. */
  function pass(client: Socket, tries = ports.length): void {
    const port = ports[(turn += 1) % ports.length];
    if (port === undefined || tries === 0) return void client.destroy();
    const server = connect(port, "127.0.0.1");
    const failed = (): void => pass(client, tries - 1);
    server.once("error", failed);
    server.once("connect", () => {
      server.off("error", failed);
      server.on("error", () => client.destroy());
      server.on("close", () => client.destroy());
      client.on("close", () => server.destroy());
      server.setNoDelay(true);
      client.pipe(server).pipe(client);
    });
  }

  const listener = createServer((client) => {
    open.add(client);
    client.setNoDelay(true);
    client.on("error", () => client.destroy());
    client.on("close", () => open.delete(client));
    pass(client);
  });
  const port = await new Promise<number>((resolve) =>
    listener.listen(0, "127.0.0.1", () => resolve((listener.address() as { port: number }).port)),
  );
  return {
    port,
    pointTo: (...next) => void (ports = next),
    close: () => {
      listener.close();
      for (const client of open) client.destroy();
    },
  };
}
