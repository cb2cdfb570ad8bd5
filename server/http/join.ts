import { asId, type PersonId } from "#shared/ids.ts";
import { leadsHere, peopleHere } from "#shared/kitchen/model/people.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Person } from "#shared/kitchen/model/vocabulary.ts";
import type { JoinAnswer, JoinRequest } from "#shared/protocol/join.ts";
import { type DeviceKind, type Devices, roleOf, sameSecret } from "#server/live/devices.ts";
import type { KitchenService } from "#server/live/kitchen-service.ts";
import { plainCode } from "#server/live/lead-code.ts";
import { Fault, NameIsTaken } from "./fault.ts";

export interface JoinDeps {
  service: KitchenService;
  devices: Devices;
  /** The lead code is shown on the server's own screen only, and only its hash is kept. */
  codes: { join: string; isLead: (code: string) => Promise<boolean> };
  newId: () => string;
  newToken: () => string;
  realMs: () => number;
  /** Whether the people who are there already are invented. */
  isPractice: boolean;
}

/**
 * Lets a device in. The first phone to join a kitchen without a lead leads it, and the first to join a practice kitchen. A name that someone has already joins
 * as that person, but a name can be typed by anyone: such a device never has a lead's rights. The lead code, in place
 * of the join code, gives them (a lead's second phone, or a lost one).
 */
export function makeJoin(deps: JoinDeps): (request: JoinRequest) => Promise<JoinAnswer> {
  // One after another, so that two first phones do not both become the lead, nor two become "Wren".
  let last: Promise<unknown> = Promise.resolve();
  return (request) => {
    const answer = last.then(() => join(deps, request));
    last = answer.catch(() => undefined);
    return answer;
  };
}

async function join(deps: JoinDeps, request: JoinRequest): Promise<JoinAnswer> {
  const { service, devices, codes } = deps;
  const kind: DeviceKind = request.as ?? "phone";
  const hasJoinCode = sameSecret(plainCode(request.code), plainCode(codes.join));
  const hasLeadCode = !hasJoinCode && (await codes.isLead(request.code));
  if (!hasLeadCode && !hasJoinCode) {
    throw new Fault("wrong-code", ({ server }) => server.http.wrongCode, "code");
  }
  const leads = hasLeadCode && kind === "phone";
  const known = personNamed(service.kitchen(), request.name);
  if (known !== undefined && kindOf(known) !== kindOf({ role: kind })) {
    throw new NameIsTaken({ name: known.name, of: kindOf(known) });
  }
  const isFirst = kind === "phone" && (deps.isPractice ? hasNoPhone(devices) : hasNoLead(service.kitchen()));
  const personId = known?.id ?? asId<PersonId>(deps.newId());
  if (known === undefined) {
    const role = kind === "wall" || kind === "sensor" ? kind : leads || isFirst ? "lead" : "decorator";
    const bench = kind === "bench" ? { isBench: true } : {};
    await command(deps, { type: "add-person", person: { id: personId, name: request.name, role, ...bench } });
  } else if (leads && known.role !== "lead") {
    await command(deps, { type: "set-role", personId, role: "lead" });
  }
  const device = {
    deviceId: deps.newId(),
    kind,
    personId,
    mayLead: leads || known === undefined,
    seenMs: deps.realMs(),
  };
  const token = deps.newToken();
  devices.add(device, token);
  return { token, deviceId: device.deviceId, role: roleOf(service.kitchen(), device), personId };
}

const hasNoPhone = (devices: Devices): boolean => devices.list().every(({ kind }) => kind !== "phone");
const hasNoLead = (kitchen: Kitchen): boolean => leadsHere(kitchen).length === 0;

type JoinCommand =
  | { type: "add-person"; person: Person }
  | { type: "set-role"; personId: PersonId; role: "lead" };

async function command(deps: JoinDeps, wanted: JoinCommand): Promise<void> {
  const answer = await deps.service.system({ ...wanted, commandId: asId(deps.newId()) });
  if (!answer.ok) throw new Fault("not-allowed", (words) => words.refusals.say(answer.fact));
}

function personNamed(kitchen: Kitchen, name: string): Person | undefined {
  const wanted = name.toLowerCase();
  return peopleHere(kitchen).find((person) => person.name.toLowerCase() === wanted);
}

/** People, walls and sensors do not share names. */
const kindOf = ({ role }: { role: Person["role"] | DeviceKind }): "person" | "wall" | "sensor" =>
  role === "wall" || role === "sensor" ? role : "person";
