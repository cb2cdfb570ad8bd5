import { Match, Show, Switch } from "solid-js";
import { Dynamic } from "solid-js/web";
import { Page } from "#phone/ui/page.tsx";
import { useFirst } from "./phone.tsx";
import { type Address, SCREENS, titleOf } from "./screens.tsx";

/** A page that has nothing but a sentence. */
const Plain = (props: { text: string }) => (
  <main class="empty">
    <p>{props.text}</p>
  </main>
);

export function Looking() {
  const { board, words } = useFirst();
  const text = (): string => {
    const { is } = board.connection();
    const { looking } = words().app;
    return is === "connecting" || is === "outdated" ? looking[is] : looking.lost;
  };
  return <Plain text={text()} />;
}

/** A screen of the table, or why it is not shown. */
export function Screen(props: { place: Address | undefined }) {
  const { board, isLead, words } = useFirst();
  const notYet = (): string | undefined => {
    if (isLead()) return undefined;
    if (!board.kitchen().isSetUp) return words().app.isBeingSetUp;
    return props.place !== undefined && SCREENS[props.place.name].isLeads ? words().app.forLeads : undefined;
  };
  return (
    <Switch
      fallback={
        <main class="empty">
          <h1>{words().app.noSuchPage}</h1>
          <a href="#/">{words().app.toTrays}</a>
        </main>
      }
    >
      <Match when={notYet()}>{(text) => <Plain text={text()} />}</Match>
      <Match when={props.place}>
        {(place) => {
          const view = () => <Dynamic component={SCREENS[place().name].view} id={place().id} />;
          return (
            <Show when={SCREENS[place().name].isTitled} fallback={view()}>
              <Page>
                <h1>{titleOf(words(), place())}</h1>
                {view()}
              </Page>
            </Show>
          );
        }}
      </Match>
    </Switch>
  );
}
