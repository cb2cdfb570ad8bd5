import { unreachable } from "#shared/outcome.ts";
import type { CommandOf } from "#shared/kitchen/model/command.ts";
import { no, yes, type Deciding, type Decision } from "./deciding.ts";
import { personHere } from "#shared/kitchen/model/people.ts";
import { trayUnder } from "#shared/kitchen/model/lookups.ts";
import { lastOnMs } from "#shared/kitchen/tray/tool-use.ts";

type ToolCommand = CommandOf<
  | "tool-on"
  | "tool-off"
  | "tool-still-in-use"
  | "hand-over-tool"
  | "tool-out-of-service"
  | "tool-back-in-service"
  | "read-tool-temperature"
>;

/** Two phones' clocks may differ by so much. */
const SAME_MOMENT_MS = 2_000;

/** Whether each tool is on, in whose hands, and fit for use. */
export function decideTool(command: ToolCommand, { kitchen, stamp, by, atMs }: Deciding): Decision {
  const tool = kitchen.tools[command.toolId];
  if (tool === undefined) return no("unknown", { code: "no-such", thing: "tool", id: command.toolId });
  const toolId = tool.id;
  const under = trayUnder(kitchen, toolId);
  switch (command.type) {
    case "tool-on":
      if (tool.outOfService !== undefined)
        return no("out-of-service", {
          code: "unfit",
          unfit: { why: "out of service", tool: tool.name, note: tool.outOfService.reason },
        });
      if (tool.use.status === "on") return no("taken", { code: "tool-on", tool: tool.name });
      if (by === "kitchen") return no("not-allowed", { code: "needs-hands", what: "tool" });
      return yes({ type: "tool-switched-on", ...stamp, toolId, holder: by });
    case "tool-off":
      if (under !== undefined)
        return no("in-use", { code: "over-tray", tool: tool.name, tray: under.number, first: "stop" });
      if (tool.use.status === "on" && atMs + SAME_MOMENT_MS < lastOnMs(tool.use))
        return no("bad-time", { code: "tool-used-since", tool: tool.name });
      return yes({ type: "tool-switched-off", ...stamp, toolId });
    case "tool-still-in-use":
      if (tool.use.status !== "on") return no("wrong-stage", { code: "tool-not-on", tool: tool.name });
      return yes({ type: "tool-kept-on", ...stamp, toolId });
    case "hand-over-tool": {
      const person = personHere(kitchen, command.to);
      if (person === undefined) return no("unknown", { code: "no-such", thing: "person", id: command.to });
      if (person.role !== "lead" && person.role !== "decorator")
        return no("not-allowed", { code: "no-hands", name: person.name, tool: tool.name });
      if (tool.use.status !== "on")
        return no("wrong-stage", { code: "not-on-to-hand-over", tool: tool.name });
      if (tool.use.holder === person.id)
        return no("taken", { code: "holds-already", name: person.name, tool: tool.name });
      return yes({ type: "tool-handed-over", ...stamp, toolId, to: person.id });
    }
    case "tool-out-of-service":
      if (under !== undefined)
        return no("in-use", { code: "over-tray", tool: tool.name, tray: under.number, first: "stop" });
      return yes({ type: "tool-withdrawn", ...stamp, toolId, reason: command.reason });
    case "tool-back-in-service":
      if (tool.outOfService === undefined)
        return no("wrong-stage", { code: "tool-in-service", tool: tool.name });
      return yes({ type: "tool-restored", ...stamp, toolId });
    case "read-tool-temperature": {
      const most = tool.kind === "hot-air" ? 600 : 300;
      if (command.tempC > most)
        return no("out-of-range", { code: "read-too-high", tool: tool.name, most, tempC: command.tempC });
      return yes({ type: "tool-temperature-read", ...stamp, toolId, tempC: command.tempC });
    }
    default:
      return unreachable(command);
  }
}
