import type { ErrorRequestHandler } from "express";
import * as v from "valibot";
import { type BadField, parse } from "#shared/fields.ts";
import type { NameTaken } from "#shared/join-fault.ts";
import { LIMITS } from "#shared/limits.ts";
import type { Settings } from "#shared/kitchen/model/settings.ts";
import type { Words } from "#shared/words/words.ts";
import { type Report, type Say, WordedError, wordsFor } from "#server/words.ts";
import { NotSaved } from "#server/live/kitchen-service.ts";

/** The closed list of what the HTTP edge answers when it does not do what was asked, and with which status. */
export const FAULTS = {
  malformed: 400,
  "not-joined": 401,
  "wrong-code": 403,
  "not-allowed": 403,
  waits: 403,
  "foreign-host": 403,
  "foreign-origin": 403,
  "not-found": 404,
  busy: 409,
  "too-large": 413,
  "too-many": 429,
  fault: 500,
  "cannot-read": 503,
  "not-saved": 503,
} as const;
export type FaultReason = keyof typeof FAULTS;

/** Thrown by a handler: becomes `{ok: false, reason, field?, message}` with the reason's status, in the words of whoever asks. */
export class Fault extends WordedError {
  override name = "Fault";
  readonly reason: FaultReason;
  readonly field: string | undefined;

  constructor(reason: FaultReason, say: Say, field?: string, options?: ErrorOptions) {
    super(say, options);
    this.reason = reason;
    this.field = field;
  }
}

/** The body or query as a schema says, or a 400 that names the first bad field and what it must be. */
export function parsed<Schema extends v.GenericSchema>(schema: Schema, raw: unknown): v.InferOutput<Schema> {
  const result = parse(schema, raw);
  if (result.ok) return result.value;
  throw malformedField(result.refusal);
}

/** A field that is not what it must be. */
export const malformedField = (bad: BadField): Fault =>
  new Fault("malformed", (words) => words.faults.say(bad), bad.field);

/** Someone or something else goes by the name that a device wants to join with. */
export class NameIsTaken extends Fault {
  readonly taken: NameTaken;

  constructor(taken: NameTaken) {
    super("malformed", ({ server }) => server.http.nameTaken(taken.name, taken.of), "name");
    this.taken = taken;
  }
}

/** The JSON of a fault. */
export const faultBody = (fault: Fault, words: Words) => ({
  ok: false as const,
  reason: fault.reason,
  ...(fault.field !== undefined && { field: fault.field }),
  ...(fault instanceof NameIsTaken && { taken: fault.taken }),
  message: fault.say(words),
});

/** Answers every error as JSON; what is our own fault is reported, and told without its inside. */
export const faultHandler =
  (report: Report, settings: () => Settings): ErrorRequestHandler =>
  (error: unknown, request, response, next) => {
    if (response.headersSent) return next(error);
    const fault = faultOf(error);
    if (fault.reason === "fault" || fault.reason === "cannot-read")
      report(({ server }) => server.log.requestFailed(request.method, request.path), fault.cause ?? error);
    response.status(FAULTS[fault.reason]).json(faultBody(fault, wordsFor(request, settings())));
  };

function faultOf(error: unknown): Fault {
  if (error instanceof Fault) return error;
  if (error instanceof NotSaved) return new Fault("not-saved", error.say);
  const { type, status, message, limit } = error as {
    type?: string;
    status?: number;
    message?: string;
    limit?: number;
  };
  if (type === "entity.too.large")
    return new Fault(
      "too-large",
      ({ server }) => server.http.tooLarge((limit ?? LIMITS.bodyBytes) / 1024),
      "body",
    );
  if (type === "entity.parse.failed")
    return new Fault("malformed", ({ server }) => server.http.notJson(message ?? "?"), "body");
  if (status !== undefined && status >= 400 && status < 500)
    return new Fault("malformed", ({ server }) => server.http.unreadable(message ?? "?"), "body");
  return new Fault("fault", ({ server }) => server.http.failed);
}
