import { For } from "solid-js";
import { usePhone } from "./phone.tsx";

const TABS = [
  { name: "Trays", path: "", heads: [undefined, "t"] },
  { name: "Heat", path: "heat", heads: ["heat"] },
  { name: "Orders", path: "orders", heads: ["orders", "designs", "icings", "icing"] },
  { name: "Room", path: "room", heads: ["room", "kitchen"] },
] as const;

export function Tabs() {
  const { path } = usePhone();
  const isHere = (heads: readonly (string | undefined)[]): boolean => heads.includes(path()[0]);
  return (
    <nav class="tabs" aria-label="Screens">
      <For each={TABS}>
        {(tab) => (
          <a href={`#/${tab.path}`} aria-current={isHere(tab.heads) ? "page" : undefined}>
            {tab.name}
          </a>
        )}
      </For>
    </nav>
  );
}
