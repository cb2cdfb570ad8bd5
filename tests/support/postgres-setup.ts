import { createServer } from "node:http";
import type { TestProject } from "vitest/node";
import type { RunningPostgres } from "./postgres.ts";

/** Beside a run's test files: starts the PostgreSQL they share when the first of them asks for it, and stops it at the end. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  let postgres: Promise<RunningPostgres> | undefined;
  const start = async (): Promise<RunningPostgres> =>
    (await import("./postgres.ts")).startPostgres(["fsync=off", "max_connections=200"]);
  const starter = createServer((_request, response) => {
    postgres ??= start();
    postgres.then(
      ({ url }) => response.end(url),
      (error: unknown) => {
        response.statusCode = 500;
        response.end(String(error));
      },
    );
  });
  await new Promise<void>((resolve) => void starter.listen(0, "127.0.0.1", resolve));
  const address = starter.address();
  const port = typeof address === "object" && address !== null ? address.port : 0;
  project.provide("postgresStarter", `http://127.0.0.1:${port}`);
  return async () => {
    starter.close();
    await (await postgres?.catch(() => undefined))?.stop();
  };
}
