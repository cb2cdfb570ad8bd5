import { type RequestHandler, Router } from "express";
import type { BackupAnswer } from "#shared/protocol/backup.ts";
import type { Backups } from "#server/backup/backups.ts";
import type { WhoAsks } from "./caller.ts";
import { Fault } from "./fault.ts";

export interface BackupRoutesDeps {
  /** Absent where none are made. */
  backups?: Backups;
  isPractice: boolean;
  asks: WhoAsks;
  limit: RequestHandler;
}

/** `GET /backup`: the last good backup and how one is going; `POST /backup` takes one. For leads. */
export function backupRoutes({ backups, isPractice, asks, limit }: BackupRoutesDeps): Router {
  const routes = Router();
  const why = isPractice ? "practice" : "elsewhere";
  routes.get("/backup", async (request, response) => {
    await asks(request, "lead");
    const answer: BackupAnswer = (await backups?.status()) ?? { is: "none", why };
    response.json(answer);
  });
  // Whoever may not take one uses up no one's tries.
  const isLead: RequestHandler = async (request, _response, next) => {
    await asks(request, "lead");
    next();
  };
  routes.post("/backup", isLead, limit, async (_request, response) => {
    if (backups === undefined) throw new Fault("not-found", ({ server }) => server.http.noBackups[why]);
    if (!backups.take()) throw new Fault("busy", ({ server }) => server.http.backupRunning);
    response.json(await backups.status());
  });
  return routes;
}
