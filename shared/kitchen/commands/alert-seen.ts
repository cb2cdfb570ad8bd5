import { own } from "#shared/collections.ts";
import { unreachable } from "#shared/outcome.ts";
import { mayPutOff } from "#shared/kitchen/model/active-alert.ts";
import type { CommandOf } from "#shared/kitchen/model/command.ts";
import { MIN_MS } from "#shared/time.ts";
import { no, yes, type Deciding, type Decision } from "./deciding.ts";

/** Alerts heard and put off by people. */
export function decideAlertSeen(
  command: CommandOf<"acknowledge-alert" | "put-off-alert">,
  { kitchen, stamp, nowMs }: Deciding,
): Decision {
  switch (command.type) {
    case "acknowledge-alert": {
      const alert = own(kitchen.alerts, command.key);
      if (alert === undefined) return no("unknown", { code: "alert-cleared" });
      if (alert.acknowledged !== undefined) return no("taken", { code: "alert-seen" });
      return yes({ type: "alert-acknowledged", ...stamp, key: command.key });
    }
    case "put-off-alert": {
      const alert = own(kitchen.alerts, command.key);
      if (alert === undefined) return no("unknown", { code: "alert-cleared" });
      if (alert.class === "urgent") return no("not-allowed", { code: "alert-urgent" });
      if (!mayPutOff(alert)) return no("not-allowed", { code: "alert-of-heat" });
      return yes({
        type: "alert-put-off",
        ...stamp,
        key: command.key,
        untilMs: nowMs + command.minutes * MIN_MS,
      });
    }
    default:
      return unreachable(command);
  }
}
