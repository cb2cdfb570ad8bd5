import { createSignal } from "solid-js";
import { askToJoin, joinCodeIn, type Session } from "#shared/client/screen/joining.ts";
import type { JoinFault } from "#shared/join-fault.ts";
import { placeOfBrowser, useFirstWords } from "#shared/client/screen/language.ts";
import type { Joining } from "#shared/client/screen/shell.tsx";
import { PlainField } from "#phone/ui/plain-field.tsx";
import { FaultText } from "#phone/ui/fault-text.tsx";
import { LanguageField } from "#phone/ui/language-field.tsx";

type Fault = JoinFault | { code: "no-code" } | { code: "no-name" };

/** Lets this phone into the kitchen: the code from the server's screen, and a name the others know. */
export function Join(props: Joining<Session> & { send: typeof fetch }) {
  const words = useFirstWords();
  const [code, setCode] = createSignal(props.code);
  const [name, setName] = createSignal("");
  const [fault, setFault] = createSignal<Fault | undefined>(
    props.wasRefused ? { code: "not-known" } : undefined,
  );
  const [busy, setBusy] = createSignal(false);
  async function submit(): Promise<void> {
    const typed = { code: code().trim(), name: name().trim(), units: placeOfBrowser(navigator).units };
    if (typed.code === "") return void setFault({ code: "no-code" });
    if (typed.name === "") return void setFault({ code: "no-name" });
    setBusy(true);
    const joined = await askToJoin(props.send, typed);
    setBusy(false);
    if (!joined.ok) return void setFault(joined.fault);
    // The code in the address is no screen's path.
    if (joinCodeIn(window.location.hash) !== "") window.location.hash = "";
    props.onJoined(joined.session);
  }
  const faultText = (): string | undefined => {
    const is = fault();
    if (is === undefined) return undefined;
    if (is.code === "no-code") return words().app.join.noCode;
    if (is.code === "no-name") return words().app.join.noName;
    return words().app.joinFault(is, "phone");
  };
  return (
    <main class="join">
      <p class="wordmark">Traytide</p>
      <h1>{words().app.join.title}</h1>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void submit();
        }}
      >
        <PlainField
          label={words().app.join.name}
          value={name()}
          onInput={setName}
          maxLength={40}
          capitalise="words"
        />
        <PlainField
          label={words().app.join.code}
          value={code()}
          onInput={setCode}
          maxLength={20}
          capitalise="characters"
          hint={words().app.join.codeHint}
        />
        <FaultText text={faultText()} />
        <button type="submit" class="act" disabled={busy()}>
          {busy() ? words().app.join.joining : words().app.join.join}
          <small>{words().app.join.tapHint}</small>
        </button>
        <LanguageField />
      </form>
    </main>
  );
}
