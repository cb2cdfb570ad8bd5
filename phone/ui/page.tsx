import { useFirstWords } from "#shared/client/screen/language.ts";
import { type Accessor, createContext, type JSX, Show, useContext } from "solid-js";

/** Set where a list stands beside other screens: whether it is alone there just now. */
export const BesideContext = createContext<Accessor<boolean>>();

/** What a list's screen shows: the page, or what stands beside one. */
export function Page(props: { children: JSX.Element }) {
  const isAlone = useContext(BesideContext);
  return (
    <Show when={isAlone} fallback={<main>{props.children}</main>}>
      {(isAlone) => (
        <div class="beside" role={isAlone()() ? "main" : "region"}>
          {props.children}
        </div>
      )}
    </Show>
  );
}

/** In place of something that is not in the kitchen any more. */
export function Gone(props: { text: string }) {
  const words = useFirstWords();
  return (
    <div class="empty">
      <h1>{props.text}</h1>
      <a href="#/">{words().app.toTrays}</a>
    </div>
  );
}
