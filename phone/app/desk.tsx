import { For, type JSX, Show } from "solid-js";
import { alongItems } from "#phone/ui/arrow-keys.ts";
import { BesideContext } from "#phone/ui/page.tsx";
import { Find } from "./parts.tsx";
import { useFirst } from "./phone.tsx";
import { type Address, DESK_TABS, deskTabOf, pathTo, SCREENS, type ScreenName, titleOf } from "./screens.tsx";
import { Status } from "./status.tsx";

/** The desk's side: whose kitchen, what is looked for, the screens, and who sits here. */
export function Side(props: { place: Address | undefined }) {
  const { board, isLead, words } = useFirst();
  const here = () => (props.place === undefined ? undefined : deskTabOf(props.place.name));
  const isSetUp = (): boolean => board.known() && board.kitchen().isSetUp;
  return (
    <header class="side">
      <strong class="kitchen">{isSetUp() ? board.kitchen().settings.name : "Traytide"}</strong>
      <Show when={isSetUp()}>
        <Find />
        <nav aria-label={words().app.screens}>
          <For each={DESK_TABS.filter((tab) => isLead() || SCREENS[tab].isLeads !== true)}>
            {(tab) => (
              <a href={`#/${pathTo(tab)}`} aria-current={here() === tab ? "page" : undefined}>
                {titleOf(words(), { name: tab, id: "" })}
              </a>
            )}
          </For>
        </nav>
      </Show>
      <div class="side-foot">
        <strong>{board.me.name}</strong>
        <Status />
      </div>
    </header>
  );
}

/** A list beside the screens under it: arrow keys go along it, and Enter opens what they stand on. */
export function ListPane(props: { name: ScreenName; isAlone: boolean; children: JSX.Element }) {
  let pane: HTMLDivElement | undefined;
  return (
    <BesideContext.Provider value={() => props.isAlone}>
      <div
        class="list-pane"
        data-alone={props.isAlone}
        ref={pane}
        onKeyDown={(event) => alongItems(event, pane, ITEMS)}
      >
        {props.children}
      </div>
    </BesideContext.Provider>
  );
}

/** What arrow keys go along. */
const ITEMS = ".cards > li > :is(a, button)";
