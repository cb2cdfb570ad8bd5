import type { CommandInput } from "#shared/kitchen/model/command.ts";
import type { SyncPhone } from "./sync-phone.ts";

type Draw = () => number;
const pick = <One>(draw: Draw, from: readonly One[]): One => from[Math.floor(draw() * from.length)] as One;

/** An act on a tray named "t…", or on the kitchen; some make sense and some do not. */
function anyAct(draw: Draw, phone: SyncPhone): CommandInput {
  const { trays } = phone.kitchen();
  const trayId = pick(
    draw,
    Object.keys(trays).filter((id) => id.startsWith("t")),
  );
  const history = trays[trayId ?? ""]?.history ?? [];
  const placeId = pick(draw, ["rack-a", "rack-b"]);
  const acts: readonly (() => object)[] = [
    () => ({ type: "start-flooding", trayId, acceptRisk: true }),
    () => ({ type: "flooded", trayId, acceptRisk: true }),
    () => ({ type: "flooded", trayId, acceptRisk: true }),
    () => ({ type: "touch-test", trayId, finding: pick(draw, ["still wet", "skinned", "firm"]) }),
    () => ({ type: "move-tray", trayId, placeId }),
    () => ({ type: "report-problem", trayId, problem: pick(draw, ["bled", "dented"]), count: 1 }),
    () => ({ type: "take-back", trayId, actId: pick(draw, history)?.act.actId ?? "none" }),
    () => ({ type: "assign-tray", trayId, to: pick(draw, [null, phone.who.personId]) }),
    () => ({ type: "pack", trayId, acceptRisk: true }),
    () => ({ type: "start-heat-set", trayId, toolId: "hot-1" }),
    () => ({ type: "next-cookie", trayId }),
    () => ({ type: "end-heat-set", trayId, result: "set" }),
    () => ({ type: "tool-off", toolId: "hot-1" }),
    () => ({ type: "leave-note", text: `Note ${Math.floor(draw() * 1000)}` }),
    () => ({
      type: "enter-reading",
      reading: {
        placeId,
        tempC: 20 + Math.floor(draw() * 8),
        rhPct: 40 + Math.floor(draw() * 20),
        source: "typed",
      },
    }),
  ];
  return pick(draw, acts)() as CommandInput;
}

/** Of the acts tried, one that the phone's own kitchen allows is likelier: most runs get far along a tray's way. */
export function drawAct(draw: Draw, phone: SyncPhone): CommandInput {
  let act = anyAct(draw, phone);
  for (let tries = 0; tries < 6 && !phone.allows(act); tries += 1) act = anyAct(draw, phone);
  return act;
}
