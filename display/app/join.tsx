import { createSignal, For, onMount, Show } from "solid-js";
import type { JSX } from "solid-js";
import { askToJoin, type Session } from "#shared/client/screen/joining.ts";
import type { JoinFault } from "#shared/join-fault.ts";
import { useWords } from "#shared/client/screen/language.ts";
import { LanguageButtons } from "./language-buttons.tsx";
import type { Joining } from "#shared/client/screen/shell.tsx";

/** A wall only shows; a bench is a wall that can be touched, and acts under its own name. */
export type ScreenKind = "wall" | "bench";

/** What this screen was given when it joined. */
export interface ScreenSession extends Session {
  as: ScreenKind;
}

/** Asks for the kitchen's code. With one in the address it tries that by itself, as a wall. */
export function Join(props: Joining<ScreenSession> & { send: typeof fetch }): JSX.Element {
  const words = useWords();
  const join = () => words().wall.join;
  const [code, setCode] = createSignal(props.code);
  const [as, setAs] = createSignal<ScreenKind>("wall");
  const [name, setName] = createSignal("");
  const [isBusy, setBusy] = createSignal(false);
  const [fault, setFault] = createSignal<JoinFault | undefined>(
    props.wasRefused ? { code: "not-known" } : undefined,
  );

  async function send(): Promise<void> {
    setBusy(true);
    setFault(undefined);
    const typed = { code: code().trim(), as: as() };
    const joined = await askToJoin(props.send, {
      ...typed,
      name: name().trim() === "" ? join().usualNames[typed.as] : name().trim(),
    });
    setBusy(false);
    if (joined.ok) props.onJoined({ ...joined.session, as: typed.as });
    else setFault(joined.fault);
  }
  onMount(() => void (props.code !== "" && !props.wasRefused && send()));

  return (
    <main class="join">
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void send();
        }}
      >
        <h1>{join().title}</h1>
        <LanguageButtons />
        <p class="soft">{join().about}</p>
        <label>
          {join().code}
          <input
            value={code()}
            onInput={(event) => setCode(event.currentTarget.value)}
            autocomplete="off"
            autocapitalize="characters"
            spellcheck={false}
            maxLength={20}
            required
          />
        </label>
        <fieldset>
          <legend>{join().kind}</legend>
          <For each={["wall", "bench"] as const}>
            {(kind) => (
              <label>
                <input type="radio" name="as" checked={as() === kind} onChange={() => setAs(kind)} />
                <span>
                  <b>{join()[kind].name}</b> {join()[kind].does}
                </span>
              </label>
            )}
          </For>
        </fieldset>
        <label>
          {join().name}
          <input
            value={name()}
            placeholder={join().usualNames[as()]}
            onInput={(event) => setName(event.currentTarget.value)}
            maxLength={40}
          />
        </label>
        <Show when={fault()}>
          {(fault) => (
            <p class="problem" role="alert">
              {words().app.joinFault(fault(), "screen")}
            </p>
          )}
        </Show>
        <button type="submit" disabled={isBusy()}>
          {isBusy() ? join().busy : join().show}
        </button>
      </form>
    </main>
  );
}
