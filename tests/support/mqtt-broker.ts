import { createServer, type Socket } from "node:net";
import { createServer as createTlsServer } from "node:tls";
import { Aedes } from "aedes";

/** A real broker on loopback that hygrometers send to. */
export interface TestBroker {
  url: string;
  port: number;
  /** User names it was shown, one for each attempt to get in. */
  shown: (string | undefined)[];
  /** Resolves once the broker has it, on its way to whoever listens. */
  send: (topic: string, message: unknown, retain?: boolean) => Promise<void>;
  /** Cuts every connection, as a broker that is switched off. */
  stop: () => Promise<void>;
}

export interface BrokerOptions {
  port?: number;
  login?: { username: string; password: string };
  /** Speaks TLS with this certificate. */
  tls?: { key: string; cert: string };
  /** Refuses every subscription. */
  isClosedToListeners?: boolean;
}

/** Opens one on a free port unless told; a text or bytes are sent as they are, anything else as JSON. */
export async function openBroker({
  port = 0,
  login,
  tls,
  isClosedToListeners = false,
}: BrokerOptions = {}): Promise<TestBroker> {
  const shown: (string | undefined)[] = [];
  const broker = await Aedes.createBroker({
    authenticate: (_client, username, password, done) => {
      shown.push(username);
      const isRight = username === login?.username && password?.toString("utf8") === login?.password;
      done(null, login === undefined || isRight);
    },
    authorizeSubscribe: (_client, subscription, done) =>
      done(null, isClosedToListeners ? null : subscription),
  });
  const sockets = new Set<Socket>();
  const take = (socket: Socket): void => {
    sockets.add(socket);
    socket.on("close", () => sockets.delete(socket));
    broker.handle(socket);
  };
  const net = tls === undefined ? createServer(take) : createTlsServer(tls, take);
  await new Promise<void>((resolve) => void net.listen(port, "127.0.0.1", resolve));
  const address = net.address();
  const opened = typeof address === "object" && address !== null ? address.port : port;
  return {
    url: `${tls === undefined ? "mqtt" : "mqtts"}://127.0.0.1:${opened}`,
    port: opened,
    shown,
    send: (topic, message, retain = false) => {
      const payload =
        typeof message === "string" || Buffer.isBuffer(message) ? message : JSON.stringify(message);
      return new Promise((resolve, reject) =>
        broker.publish({ cmd: "publish", topic, payload, qos: 0, dup: false, retain }, (error) =>
          error === undefined || error === null ? resolve() : reject(error),
        ),
      );
    },
    stop: async () => {
      for (const socket of sockets) socket.destroy();
      await new Promise<void>((resolve) => void net.close(() => resolve()));
      await new Promise<void>((resolve) => broker.close(resolve));
    },
  };
}
