import type { CommandOf } from "#shared/kitchen/model/command.ts";
import { deviceHere, isGone, isWaiting, waitingDevices } from "#shared/kitchen/model/devices.ts";
import { personHere } from "#shared/kitchen/model/people.ts";
import { MOST } from "#shared/limits.ts";
import { no, yes, type Deciding, type Decision } from "./deciding.ts";

/** Who may act here: screens and sensors that join, wait, are let in, and are forgotten. */
export function joinDevice(command: CommandOf<"join-device">, { kitchen, stamp }: Deciding): Decision {
  const { joiningId, personId, as, isWaiting } = command;
  if (personHere(kitchen, personId) === undefined)
    return no("unknown", { code: "no-such", thing: "person", id: personId });
  if (isWaiting && waitingDevices(kitchen).length >= MOST.waiting)
    return no("no-room", { code: "too-many-wait", most: MOST.waiting });
  return yes({ type: "device-joined", ...stamp, joinedId: joiningId, personId, as, isWaiting });
}

export function letIn({ joiningId }: CommandOf<"let-in">, { kitchen, stamp }: Deciding): Decision {
  const device = deviceHere(kitchen, joiningId);
  if (device === undefined) return no("unknown", { code: "no-such-device", id: joiningId });
  if (!isWaiting(kitchen, joiningId)) return no("taken", { code: "device-is-in" });
  return yes({ type: "device-let-in", ...stamp, joinedId: joiningId });
}

/** Devices of older logs are known to the server alone, and can be forgotten too. */
export function forgetDevice(
  { joiningId }: CommandOf<"forget-device">,
  { kitchen, stamp, deviceId }: Deciding,
): Decision {
  if (joiningId === deviceId) return no("in-use", { code: "own-device" });
  if (isGone(kitchen, joiningId)) return no("unknown", { code: "no-such-device", id: joiningId });
  return yes({ type: "device-forgotten", ...stamp, joinedId: joiningId });
}
