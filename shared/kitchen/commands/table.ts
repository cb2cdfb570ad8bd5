import { decideAir } from "./air.ts";
import { decideAlert } from "./alert.ts";
import { decideBatch } from "./batch.ts";
import { type CommandTable, leads, nobody, noUndo, takeBack, team, teamAndSensors } from "./definition.ts";
import * as devices from "./devices.ts";
import * as equipment from "./equipment.ts";
import { FIRST_COMMANDS } from "./first-commands.ts";
import { decideHeat } from "./heat.ts";
import * as orders from "./orders.ts";
import * as people from "./people.ts";
import * as recipes from "./recipes.ts";
import { decideTakeBack } from "./take-back.ts";
import { decideTool } from "./tool.ts";
import { batchOf } from "#shared/kitchen/model/lookups.ts";
import type { CommandInput, CommandOf } from "#shared/kitchen/model/command.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";

/** One row a command: the compiler names what is missing. */
export const COMMAND_TABLE: CommandTable = {
  "set-kitchen": { senders: leads, undo: noUndo, decide: equipment.setKitchen },
  "put-place": { senders: leads, undo: noUndo, decide: equipment.putPlace },
  "remove-place": { senders: leads, undo: noUndo, decide: equipment.removePlace },
  "put-tool": { senders: leads, undo: noUndo, decide: equipment.putTool },
  "remove-tool": { senders: leads, undo: noUndo, decide: equipment.removeTool },

  "add-person": { senders: nobody, undo: noUndo, decide: people.addPerson },
  "set-role": { senders: leads, undo: noUndo, decide: people.setRole },
  "set-hours": { senders: leads, undo: noUndo, decide: people.setHours },
  "remove-people": { senders: leads, undo: noUndo, decide: people.removePeople },

  "join-device": { senders: nobody, undo: noUndo, decide: devices.joinDevice },
  "let-in": { senders: leads, undo: noUndo, decide: devices.letIn },
  "forget-device": { senders: leads, undo: noUndo, decide: devices.forgetDevice },

  "put-icing": { senders: leads, undo: noUndo, decide: recipes.putIcing },
  "remove-icing": { senders: leads, undo: noUndo, decide: recipes.removeIcing },
  "put-design": { senders: leads, undo: noUndo, decide: recipes.putDesign },
  "remove-design": { senders: leads, undo: noUndo, decide: recipes.removeDesign },

  "put-recipe": { senders: leads, undo: noUndo, decide: recipes.putRecipe },
  "remove-recipe": { senders: leads, undo: noUndo, decide: recipes.removeRecipe },

  "put-order": { senders: leads, undo: noUndo, decide: orders.putOrder },
  "cancel-order": { senders: leads, undo: orderAgain, decide: orders.cancelOrder },
  "give-cookies": {
    senders: team,
    undo: ({ fromId, toId, designId, count }) => ({
      type: "give-cookies",
      fromId: toId,
      toId: fromId,
      designId,
      count,
      isUndo: true,
    }),
    decide: orders.giveCookies,
  },
  "add-trays": { senders: leads, undo: noUndo, decide: orders.addTrays },
  "remove-tray": { senders: leads, undo: noUndo, decide: orders.removeTray },

  ...FIRST_COMMANDS,
  "take-back": { senders: team, undo: noUndo, decide: decideTakeBack },

  "start-heat-set": { senders: team, undo: takeBack, decide: decideHeat },
  "next-cookie": { senders: team, undo: takeBack, decide: decideHeat },
  "heat-on": { senders: team, undo: takeBack, decide: decideHeat },
  "end-heat-set": { senders: team, undo: takeBack, decide: decideHeat },

  "tool-on": { senders: team, undo: noUndo, decide: decideTool },
  "tool-off": { senders: team, undo: noUndo, decide: decideTool },
  "tool-still-in-use": { senders: team, undo: noUndo, decide: decideTool },
  "hand-over-tool": { senders: team, undo: noUndo, decide: decideTool },
  "tool-out-of-service": { senders: team, undo: noUndo, decide: decideTool },
  "tool-back-in-service": { senders: leads, undo: noUndo, decide: decideTool },
  "read-tool-temperature": { senders: team, undo: noUndo, decide: decideTool },

  "record-batch": {
    senders: team,
    undo: ({ batch }) => ({ type: "finish-batch", batchId: batch.id }),
    decide: decideBatch,
  },
  "finish-batch": { senders: team, undo: batchAgain, decide: decideBatch },

  "judge-batch": {
    senders: team,
    undo: ({ batchId }, before) => ({
      type: "judge-batch",
      batchId,
      wrong: batchOf(before, batchId)?.wrong?.why ?? null,
    }),
    decide: decideBatch,
  },
  "leave-note": {
    senders: team,
    undo: (_, { note }) => ({ type: "leave-note", text: note?.text ?? null }),
    decide: people.leaveNote,
  },

  "enter-reading": { senders: teamAndSensors, undo: noUndo, decide: decideAir },
  "caution-read": { senders: team, undo: noUndo, decide: decideAir },

  "reconcile-alerts": { senders: nobody, undo: noUndo, decide: decideAlert },
  archive: { senders: nobody, undo: noUndo, decide: decideAlert },
};

/** It has nothing packed, or it would not have been cancelled. */
function orderAgain({ orderId }: CommandOf<"cancel-order">, before: Kitchen): CommandInput | undefined {
  const order = before.orders[orderId];
  return order && { type: "put-order", order, isUndo: true };
}

function batchAgain({ batchId }: CommandOf<"finish-batch">, before: Kitchen): CommandInput | undefined {
  const { by: _whoever, uses: _uses, wrong: _wrong, ...batch } = before.batches[batchId] ?? {};
  return "id" in batch ? { type: "record-batch", batch } : undefined;
}
