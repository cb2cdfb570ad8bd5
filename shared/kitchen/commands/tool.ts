import { unreachable } from "#shared/outcome.ts";
import type { CommandOf } from "#shared/kitchen/model/command.ts";
import { no, yes, type Deciding, type Decision } from "./deciding.ts";
import { personHere } from "#shared/kitchen/model/people.ts";
import { trayUnder } from "#shared/kitchen/model/state.ts";
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
  if (tool === undefined) return no("unknown", `There is no tool with the id ${command.toolId}.`);
  const toolId = tool.id;
  const under = trayUnder(kitchen, toolId);
  switch (command.type) {
    case "tool-on":
      if (tool.outOfService !== undefined)
        return no("out-of-service", `${tool.name} is out of service: ${tool.outOfService.reason}`);
      if (tool.use.status === "on") return no("taken", `${tool.name} is on already.`);
      if (by === "kitchen") return no("not-allowed", "A tool is switched on by hands.");
      return yes({ type: "tool-switched-on", ...stamp, toolId, holder: by });
    case "tool-off":
      if (under !== undefined)
        return no("in-use", `${tool.name} is over tray ${under.number}: stop the heat-set first.`);
      if (tool.use.status === "on" && atMs + SAME_MOMENT_MS < lastOnMs(tool.use))
        return no(
          "bad-time",
          `${tool.name} has been in use since then: look at it, and say again if it is off.`,
        );
      return yes({ type: "tool-switched-off", ...stamp, toolId });
    case "tool-still-in-use":
      if (tool.use.status !== "on") return no("wrong-stage", `${tool.name} is not on.`);
      return yes({ type: "tool-kept-on", ...stamp, toolId });
    case "hand-over-tool": {
      const person = personHere(kitchen, command.to);
      if (person === undefined) return no("unknown", `No one here has the id ${command.to}.`);
      if (person.role !== "lead" && person.role !== "decorator")
        return no("not-allowed", `${person.name} has no hands: hand ${tool.name} to a lead or a decorator.`);
      if (tool.use.status !== "on")
        return no("wrong-stage", `${tool.name} is not on: there is nothing to hand over.`);
      if (tool.use.holder === person.id) return no("taken", `${person.name} holds ${tool.name} already.`);
      return yes({ type: "tool-handed-over", ...stamp, toolId, to: person.id });
    }
    case "tool-out-of-service":
      if (under !== undefined)
        return no("in-use", `${tool.name} is over tray ${under.number}: stop the heat-set first.`);
      return yes({ type: "tool-withdrawn", ...stamp, toolId, reason: command.reason });
    case "tool-back-in-service":
      if (tool.outOfService === undefined) return no("wrong-stage", `${tool.name} is in service.`);
      return yes({ type: "tool-restored", ...stamp, toolId });
    case "read-tool-temperature": {
      const most = tool.kind === "hot-air" ? 600 : 300;
      if (command.tempC > most)
        return no(
          "out-of-range",
          `tempC must be -5 to ${most} °C for ${tool.name}: was ${command.tempC} typed in °F, or with a digit too many?`,
        );
      return yes({ type: "tool-temperature-read", ...stamp, toolId, tempC: command.tempC });
    }
    default:
      return unreachable(command);
  }
}
