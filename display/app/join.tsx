import { createSignal, onMount, Show } from "solid-js";
import type { JSX } from "solid-js";
import { joinAs, type ScreenKind, type ScreenSession } from "./session.ts";

/** Asks for the kitchen's code. With one in the address it tries that by itself, as a wall. */
export function Join(props: {
  code: string;
  why?: string | undefined;
  send: typeof fetch;
  onJoined(session: ScreenSession, code: string): void;
}): JSX.Element {
  const [code, setCode] = createSignal(props.code);
  const [as, setAs] = createSignal<ScreenKind>("wall");
  const [name, setName] = createSignal("");
  const [isBusy, setBusy] = createSignal(false);
  const [problem, setProblem] = createSignal(props.why);

  async function join(): Promise<void> {
    setBusy(true);
    setProblem(undefined);
    const fallback = as() === "wall" ? "Wall" : "Bench";
    const joined = await joinAs(
      props.send,
      as(),
      code().trim(),
      name().trim() === "" ? fallback : name().trim(),
    );
    setBusy(false);
    if (joined.ok) props.onJoined(joined.session, code().trim());
    else setProblem(joined.message);
  }
  onMount(() => void (props.code !== "" && props.why === undefined && join()));

  return (
    <main class="join">
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void join();
        }}
      >
        <h1>Traytide wall</h1>
        <p class="soft">
          Show this kitchen's board here. The join code is on the server's screen, and on any lead's phone
          under Room.
        </p>
        <label>
          Join code
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
          <legend>This screen is</legend>
          <label>
            <input type="radio" name="as" checked={as() === "wall"} onChange={() => setAs("wall")} />
            <span>
              <b>a wall</b> that shows
            </span>
          </label>
          <label>
            <input type="radio" name="as" checked={as() === "bench"} onChange={() => setAs("bench")} />
            <span>
              <b>a bench</b> that can be tapped: a tile opens the tray's next act
            </span>
          </label>
        </fieldset>
        <label>
          Its name
          <input
            value={name()}
            placeholder={as() === "wall" ? "Wall" : "Bench"}
            onInput={(event) => setName(event.currentTarget.value)}
            maxLength={40}
          />
        </label>
        <Show when={problem()}>
          {(words) => (
            <p class="problem" role="alert">
              {words()}
            </p>
          )}
        </Show>
        <button type="submit" disabled={isBusy()}>
          {isBusy() ? "Joining…" : "Show the board"}
        </button>
      </form>
    </main>
  );
}
