import type { JSX } from "solid-js";
import type { Words } from "#shared/words/words.ts";
import { DesignScreen, NewDesignScreen } from "#phone/designs/design-screen.tsx";
import { Designs } from "#phone/designs/designs.tsx";
import { BatchScreen } from "#phone/icing/batch.tsx";
import { HeatScreen } from "#phone/heat/heat-screen.tsx";
import { HeatTab } from "#phone/heat/heat-tab.tsx";
import { IcingScreen } from "#phone/icing/icing-to-mix.tsx";
import { IcingColour, Icings } from "#phone/icing/icings.tsx";
import { RecipeScreen } from "#phone/icing/recipe.tsx";
import { Recipes } from "#phone/icing/recipes.tsx";
import { OrderForm } from "#phone/orders/order-form.tsx";
import { OrderScreen } from "#phone/orders/order.tsx";
import { Orders } from "#phone/orders/orders.tsx";
import { PlanScreen } from "#phone/plan/plan.tsx";
import { OrderLabels } from "#phone/print/order-labels.tsx";
import { PrintScreen } from "#phone/print/print-screen.tsx";
import { TrayLabelScreen } from "#phone/print/tray-label-screen.tsx";
import { Backups } from "#phone/room/backups.tsx";
import { DayScreen } from "#phone/room/day.tsx";
import { Devices } from "#phone/room/devices.tsx";
import { DoneScreen } from "#phone/room/done.tsx";
import { HandOverScreen } from "#phone/room/hand-over.tsx";
import { Hygrometers } from "#phone/room/hygrometers.tsx";
import { Room } from "#phone/room/room.tsx";
import { TrustScreen } from "#phone/room/trust.tsx";
import { KitchenForm } from "#phone/set-up/kitchen-form.tsx";
import { Places } from "#phone/set-up/places.tsx";
import { SetUp } from "#phone/set-up/set-up.tsx";
import { ToolsEditor } from "#phone/set-up/tools.tsx";
import { TrayScreen } from "#phone/trays/tray.tsx";
import { Trays } from "#phone/trays/trays.tsx";
import type { Path } from "./path.ts";
import { usePhone } from "./phone.tsx";

/** A screen's name is its title's key in the words: neither can be without the other. */
export type ScreenName = keyof Words["app"]["titles"];

/** The tabs, in their order. */
export const TABS = ["trays", "heat", "orders", "room"] as const satisfies readonly ScreenName[];

/** The same on the desk, where there is room for more. */
export const DESK_TABS = [
  "trays",
  "plan",
  "orders",
  "designs",
  "icing",
  "heat",
  "room",
  "day",
  "print",
] as const satisfies readonly ScreenName[];

interface Screen {
  /** After "#/"; ":id" stands for anything, ":number" for a tray's number. */
  path: string;
  /** Where "back" leads. */
  parent?: ScreenName;
  /** On the desk it stays in sight beside the screens under it. */
  isList?: true;
  /** No tabs are shown under it, though they are under its parent. */
  hasNoTabs?: true;
  /** Its title stands above it. */
  isTitled?: true;
  /** A decorator who opens it is told that it is the leads'. */
  isLeads?: true;
  view: (props: { id: string }) => JSX.Element;
}

const byNumber = (View: (props: { number: number }) => JSX.Element) => (props: { id: string }) => (
  <View number={Number(props.id)} />
);

/** Every screen of the phone. The first whose path fits is shown. */
export const SCREENS: Readonly<Record<ScreenName, Screen>> = {
  trays: { path: "", isList: true, view: Trays },
  tray: { path: "t/:number", parent: "trays", view: byNumber(TrayScreen) },
  "tray-heat": { path: "t/:number/heat", parent: "tray", hasNoTabs: true, view: byNumber(HeatScreen) },
  heat: { path: "heat", view: HeatTab },
  plan: { path: "plan", parent: "orders", view: PlanScreen },
  orders: { path: "orders", isList: true, view: Orders },
  "new-order": { path: "orders/new", parent: "orders", isLeads: true, view: NewOrder },
  order: { path: "orders/:id", parent: "orders", view: OrderScreen },
  icing: { path: "icing", parent: "orders", view: () => <IcingScreen orderId={undefined} /> },
  "order-icing": { path: "icing/:id", parent: "order", view: (props) => <IcingScreen orderId={props.id} /> },
  batch: { path: "batch/:id", parent: "icing", view: BatchScreen },
  recipes: { path: "recipes", parent: "icing", isTitled: true, view: Recipes },
  recipe: { path: "recipes/:id", parent: "recipes", view: RecipeScreen },
  designs: { path: "designs", parent: "orders", isList: true, isTitled: true, view: () => <Designs /> },
  "new-design": { path: "designs/new", parent: "designs", isLeads: true, view: NewDesignScreen },
  design: { path: "designs/:id", parent: "designs", view: DesignScreen },
  "tray-label": { path: "t/:number/label", parent: "tray", view: byNumber(TrayLabelScreen) },
  "order-labels": {
    path: "orders/:id/labels",
    parent: "order",
    view: (props) => <OrderLabels orderId={props.id} />,
  },
  print: { path: "print", parent: "orders", view: PrintScreen },
  icings: { path: "icings", parent: "orders", isTitled: true, view: Icings },
  colour: { path: "icings/:id", parent: "icings", view: IcingColour },
  room: { path: "room", isList: true, view: Room },
  settings: { path: "kitchen/settings", parent: "room", isLeads: true, isTitled: true, view: Settings },
  places: { path: "kitchen/places", parent: "room", isTitled: true, view: Places },
  tools: { path: "kitchen/tools", parent: "room", isTitled: true, view: ToolsEditor },
  backups: { path: "kitchen/backups", parent: "room", isLeads: true, isTitled: true, view: Backups },
  devices: { path: "kitchen/devices", parent: "room", isLeads: true, view: Devices },
  done: { path: "kitchen/done", parent: "room", isLeads: true, view: DoneScreen },
  hygrometers: {
    path: "kitchen/hygrometers",
    parent: "room",
    isLeads: true,
    isTitled: true,
    view: Hygrometers,
  },
  trust: { path: "kitchen/trust", parent: "room", isLeads: true, view: TrustScreen },
  day: { path: "kitchen/day", parent: "room", view: DayScreen },
  "hand-over": { path: "kitchen/hand-over", parent: "room", view: HandOverScreen },
  "set-up": { path: "set-up/:id", isLeads: true, view: (props) => <SetUp step={Number(props.id)} /> },
};

function NewOrder() {
  const { go } = usePhone();
  return (
    <main>
      <OrderForm onDone={(id) => go(id === undefined ? pathTo("orders") : pathTo("order", id))} />
    </main>
  );
}

function Settings() {
  const { go } = usePhone();
  return <KitchenForm onDone={() => go(pathTo("room"))} />;
}

/** A screen, and what of its path is not fixed: empty where all is. */
export interface Address {
  name: ScreenName;
  id: string;
}

const NAMES = Object.keys(SCREENS) as ScreenName[];

/** The screen at a path; undefined where there is none. */
export function screenAt(path: Path): Address | undefined {
  for (const name of NAMES) {
    const id = idIn(SCREENS[name].path, path);
    if (id !== undefined) return { name, id };
  }
  return undefined;
}

/** What stands in a path for ":id" or ":number"; undefined where the path does not fit. */
function idIn(pattern: string, path: Path): string | undefined {
  const parts = pattern.split("/").filter((part) => part !== "");
  if (parts.length !== path.length) return undefined;
  let id = "";
  for (const [k, part] of parts.entries()) {
    const given = path[k] ?? "";
    if (part === ":number" && !/^\d{1,4}$/.test(given)) return undefined;
    if (part.startsWith(":")) id = given;
    else if (part !== given) return undefined;
  }
  return id;
}

/** The path of a screen, after "#/". */
export const pathTo = (name: ScreenName, id = ""): string =>
  SCREENS[name].path.replace(/:\w+/, encodeURIComponent(id));

export function titleOf({ app }: Words, { name, id }: Address): string {
  const title = app.titles[name];
  return typeof title === "string" ? title : title(id);
}

/** The tab a screen stands under, its furthest parent; undefined where none is shown. */
export function tabOf(name: ScreenName): (typeof TABS)[number] | undefined {
  const { parent, hasNoTabs } = SCREENS[name];
  if (hasNoTabs) return undefined;
  return parent === undefined ? TABS.find((tab) => tab === name) : tabOf(parent);
}

/** The desk's tab that a screen stands under: its own, or its nearest parent's. */
export function deskTabOf(name: ScreenName): (typeof DESK_TABS)[number] | undefined {
  const own = DESK_TABS.find((tab) => tab === name);
  const { parent } = SCREENS[name];
  return own ?? (parent === undefined ? undefined : deskTabOf(parent));
}

/** The list that a screen stands beside on the desk: its tab's, itself where it is one. */
export function listBeside(name: ScreenName): ScreenName | undefined {
  const tab = deskTabOf(name);
  return tab !== undefined && SCREENS[tab].isList === true ? tab : undefined;
}

/** Where "back" leads from a screen. */
export function parentOf({ name, id }: Address): Address | undefined {
  const { parent } = SCREENS[name];
  return parent === undefined
    ? undefined
    : { name: parent, id: SCREENS[parent].path.includes(":") ? id : "" };
}
