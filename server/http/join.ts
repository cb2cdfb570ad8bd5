import { asId, type PersonId } from "#shared/ids.ts";
import { leadsHere, personNamed } from "#shared/kitchen/model/people.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { DeviceKind, Person } from "#shared/kitchen/model/vocabulary.ts";
import type { CommandAnswer } from "#shared/protocol/command.ts";
import type { JoinAnswer, JoinRequest } from "#shared/protocol/join.ts";
import { roleOf } from "#server/live/roles.ts";
import type { DeviceStore } from "#server/log/device-store.ts";
import type { KitchenService } from "#server/live/kitchen-service.ts";
import type { Practice } from "#server/practice/practice.ts";
import { wordsIn } from "#server/words.ts";
import type { Language } from "#shared/words/formats.ts";
import type { CommandInput } from "#shared/kitchen/model/command.ts";
import { plainCode, sameSecret } from "#server/live/lead-code.ts";
import { Fault, NameIsTaken } from "./fault.ts";

export interface JoinDeps {
  service: KitchenService;
  devices: DeviceStore;
  /** The lead code is shown on the server's own screen only, and only its hash is kept. */
  codes: { join: string; isLead: (code: string) => Promise<boolean> };
  newId: () => string;
  newToken: () => string;
  realMs: () => number;
  /** Whether the people who are there already are invented. */
  isPractice: boolean;
  practice?: Pick<Practice, "speakAs">;
}

/**
 * Lets a device in. The first phone to join a kitchen without a lead leads it, and the first to join a practice kitchen. A name
 * that someone has already can be typed by anyone: such a phone or bench waits until a lead lets it in, and is then that
 * person's own. The lead code, in place of the join code, lets it in at once, with a lead's rights (a lost phone). A practice kitchen goes over to its first phone's
 * language and units: nobody can have chosen others before.
 */
export function makeJoin(deps: JoinDeps): (request: JoinRequest, language?: Language) => Promise<JoinAnswer> {
  // One after another, so that two first phones do not both become the lead, nor two become "Wren".
  let last: Promise<unknown> = Promise.resolve();
  return (request, language = "en") => {
    const answer = last.then(() => join(deps, request, language));
    last = answer.catch(() => undefined);
    return answer;
  };
}

async function join(deps: JoinDeps, request: JoinRequest, language: Language): Promise<JoinAnswer> {
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
  const isFirst =
    kind === "phone" && (deps.isPractice ? await hasNoPhone(devices) : hasNoLead(service.kitchen()));
  const personId = known?.id ?? asId<PersonId>(deps.newId());
  if (known === undefined) {
    const role = kind === "wall" || kind === "sensor" ? kind : leads || isFirst ? "lead" : "decorator";
    const bench = kind === "bench" ? { isBench: true } : {};
    const person: Person = { id: personId, name: request.name, role, ...bench };
    const added = await deps.service.system({ type: "add-person", commandId: asId(deps.newId()), person });
    // Somebody joined by this name on another of the kitchen's servers meanwhile.
    if (!added.ok && added.fact.code === "person-name-taken") return join(deps, request, language);
    if (!added.ok) throw refusedJoin(added);
  } else if (leads && known.role !== "lead") {
    await command(deps, { type: "set-role", personId, role: "lead" });
  }
  const isTyped = known !== undefined && (kind === "phone" || kind === "bench");
  const isWaiting = isTyped && !hasLeadCode && !isFirst;
  const deviceId = deps.newId();
  await command(deps, { type: "join-device", joiningId: asId(deviceId), personId, as: kind, isWaiting });
  const device = {
    deviceId,
    kind,
    personId,
    mayLead: leads || known === undefined,
    seenMs: deps.realMs(),
  };
  if (isFirst && deps.practice !== undefined) {
    const units = request.units ?? "metric";
    const kitchen = service.kitchen();
    const asked = deps.practice.speakAs(kitchen, wordsIn(language, { ...kitchen.settings, units }), units);
    for (const one of asked) await command(deps, one);
  }
  const token = deps.newToken();
  await devices.add(device, token);
  return { token, deviceId, role: roleOf(service.kitchen(), device), personId };
}

const hasNoPhone = async (devices: DeviceStore): Promise<boolean> =>
  (await devices.list()).every(({ kind }) => kind !== "phone");
const hasNoLead = (kitchen: Kitchen): boolean => leadsHere(kitchen).length === 0;

async function command(deps: JoinDeps, wanted: CommandInput): Promise<void> {
  const answer = await deps.service.system({ ...wanted, commandId: asId(deps.newId()) });
  if (!answer.ok) throw refusedJoin(answer);
}

const refusedJoin = ({ fact }: Extract<CommandAnswer, { ok: false }>): Fault =>
  new Fault("not-allowed", (words) => words.refusals.say(fact));

/** People, walls and sensors do not share names. */
const kindOf = ({ role }: { role: Person["role"] | DeviceKind }): "person" | "wall" | "sensor" =>
  role === "wall" || role === "sensor" ? role : "person";
