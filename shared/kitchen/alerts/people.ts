import { type AlertFact, makeAlert } from "#shared/kitchen/model/alert.ts";
import { waitingDevices } from "#shared/kitchen/model/devices.ts";
import { personHere } from "#shared/kitchen/model/people.ts";
import type { Scene } from "./scene.ts";

/** A device that typed a name which is another's, for the leads: they know whose it is. */
export const peopleAlerts = ({ kitchen }: Scene): AlertFact[] =>
  waitingDevices(kitchen).map(({ id, personId, as, joinedAtMs }) =>
    makeAlert(
      "device-waits",
      {},
      {
        key: `device-waits:${id}`,
        deviceId: id,
        holderId: personId,
        as,
        isLead: as === "phone" && personHere(kitchen, personId)?.role === "lead",
        sinceMs: joinedAtMs,
      },
    ),
  );
