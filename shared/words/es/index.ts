import type { KitchenUnits } from "#shared/units.ts";
import type { Words } from "#shared/words/words.ts";
import { acts } from "./acts.ts";
import { advice } from "./advice.ts";
import { book } from "./room/book.ts";
import { backups } from "./room/backups.ts";
import { cautions } from "./cautions.ts";
import { day } from "./room/day.ts";
import { desk } from "./desk.ts";
import { designs } from "./designs.ts";
import { devices } from "./room/devices.ts";
import { drawings } from "./drawings.ts";
import { faults } from "./faults.ts";
import { spanishFirst } from "./first.ts";
import { forms } from "./forms.ts";
import { happened } from "./happened.ts";
import { heat } from "./heat.ts";
import { icing } from "./icing.ts";
import { newDesign } from "./new-design.ts";
import { orders } from "./orders.ts";
import { packing } from "./packing.ts";
import { plan } from "./plan.ts";
import { print } from "./print.ts";
import { refusals } from "./refusals.ts";
import { room } from "./room/room.ts";
import { server } from "./server.ts";
import { setUp } from "./set-up.ts";
import { story } from "./story.ts";
import { trace } from "./trace.ts";
import { trust } from "./room/trust.ts";
import { wall } from "./wall.ts";

/** Spanish for a kitchen: its numbers and clock by its units. `timeZone`: an IANA name. */
export function spanish(units: KitchenUnits, timeZone: string): Words {
  const first = spanishFirst(units, timeZone);
  const { format } = first;
  return {
    ...first,
    acts: acts(format),
    advice: advice(format),
    backups: backups(format),
    book: book(format),
    cautions: cautions(format),
    day: day(format),
    desk: desk(format),
    designs: designs(format),
    devices: devices(format),
    drawings: drawings(format),
    faults: faults(format),
    forms: forms(format),
    happened: happened(format),
    heat: heat(format),
    icing: icing(format),
    newDesign: newDesign(format),
    orders: orders(format),
    packing: packing(format),
    plan: plan(format),
    print: print(format),
    refusals: refusals(format),
    room: room(format),
    server: server(format),
    setUp: setUp(format),
    story: story(format),
    trace: trace(format),
    trust: trust(format),
    wall: wall(format),
  };
}
