import { For } from "solid-js";
import { useFirst } from "./phone.tsx";
import { pathTo, type ScreenName, TABS } from "./screens.tsx";

export function Tabs(props: { here: ScreenName | undefined }) {
  const { words } = useFirst();
  return (
    <nav class="tabs" aria-label={words().app.screens}>
      <For each={TABS}>
        {(tab) => (
          <a href={`#/${pathTo(tab)}`} aria-current={props.here === tab ? "page" : undefined}>
            {words().app.titles[tab]}
          </a>
        )}
      </For>
    </nav>
  );
}
