import type { JSX } from "solid-js";
import type { FirstWords } from "#shared/words/words.ts";
import { TrayScreen } from "#phone/trays/tray.tsx";
import { Trays } from "#phone/trays/trays.tsx";
import type { Path } from "./path.ts";
import { later } from "./later.tsx";
import { useFirst } from "./phone.tsx";

/** A screen's name is its title's key in the words: neither can be without the other. */
export type ScreenName = keyof FirstWords["app"]["titles"];

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

/** A screen's code is loaded when it is opened, or before that in a quiet moment. */
const Backups = later(async () => (await import("#phone/room/backups.tsx")).Backups);
const BatchScreen = later(async () => (await import("#phone/icing/batch.tsx")).BatchScreen);
const DayScreen = later(async () => (await import("#phone/room/day.tsx")).DayScreen);
const DesignScreen = later(async () => (await import("#phone/designs/design-screen.tsx")).DesignScreen);
const Designs = later(async () => (await import("#phone/designs/designs.tsx")).Designs);
const Devices = later(async () => (await import("#phone/room/devices.tsx")).Devices);
const DoneScreen = later(async () => (await import("#phone/room/done.tsx")).DoneScreen);
const HandOverScreen = later(async () => (await import("#phone/room/hand-over.tsx")).HandOverScreen);
const HeatScreen = later(async () => (await import("#phone/heat/heat-screen.tsx")).HeatScreen);
const HeatTab = later(async () => (await import("#phone/heat/heat-tab.tsx")).HeatTab);
const Hygrometers = later(async () => (await import("#phone/room/hygrometers.tsx")).Hygrometers);
const IcingColour = later(async () => (await import("#phone/icing/icings.tsx")).IcingColour);
const IcingScreen = later(async () => (await import("#phone/icing/icing-to-mix.tsx")).IcingScreen);
const Icings = later(async () => (await import("#phone/icing/icings.tsx")).Icings);
const KitchenForm = later(async () => (await import("#phone/set-up/kitchen-form.tsx")).KitchenForm);
const NewDesignScreen = later(async () => (await import("#phone/designs/design-screen.tsx")).NewDesignScreen);
const OrderForm = later(async () => (await import("#phone/orders/order-form.tsx")).OrderForm);
const OrderLabels = later(async () => (await import("#phone/print/order-labels.tsx")).OrderLabels);
const OrderScreen = later(async () => (await import("#phone/orders/order.tsx")).OrderScreen);
const Orders = later(async () => (await import("#phone/orders/orders.tsx")).Orders);
const Places = later(async () => (await import("#phone/set-up/places.tsx")).Places);
const PlanScreen = later(async () => (await import("#phone/plan/plan.tsx")).PlanScreen);
const PrintScreen = later(async () => (await import("#phone/print/print-screen.tsx")).PrintScreen);
const RecipeScreen = later(async () => (await import("#phone/icing/recipe.tsx")).RecipeScreen);
const Recipes = later(async () => (await import("#phone/icing/recipes.tsx")).Recipes);
const Room = later(async () => (await import("#phone/room/room.tsx")).Room);
const SetUp = later(async () => (await import("#phone/set-up/set-up.tsx")).SetUp);
const ToolsEditor = later(async () => (await import("#phone/set-up/tools.tsx")).ToolsEditor);
const TrayLabelScreen = later(
  async () => (await import("#phone/print/tray-label-screen.tsx")).TrayLabelScreen,
);
const TrustScreen = later(async () => (await import("#phone/room/trust.tsx")).TrustScreen);

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
  const { go } = useFirst();
  return (
    <main>
      <OrderForm onDone={(id) => go(id === undefined ? pathTo("orders") : pathTo("order", id))} />
    </main>
  );
}

function Settings() {
  const { go } = useFirst();
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

export function titleOf({ app }: FirstWords, { name, id }: Address): string {
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
