import { Show, createSignal } from "solid-js";
import { TextField } from "#phone/ui/fields.tsx";
import type { Joined, Session } from "#shared/client/screen/joining.ts";

/** Lets this phone into the kitchen: the code from the server's screen, and a name the others know. */
export function Join(props: {
  code: string;
  name: string;
  why?: string;
  join: (code: string, name: string) => Promise<Joined>;
  onJoined: (session: Session) => void;
}) {
  const [code, setCode] = createSignal(props.code);
  const [name, setName] = createSignal(props.name);
  const [fault, setFault] = createSignal(props.why);
  const [busy, setBusy] = createSignal(false);
  async function submit(): Promise<void> {
    const [typedCode, typedName] = [code().trim(), name().trim()];
    if (typedCode === "") return void setFault("The join code is missing: it is on the server's screen.");
    if (typedName === "") return void setFault("Your name is missing: the others see who holds what.");
    setBusy(true);
    const joined = await props.join(typedCode, typedName);
    setBusy(false);
    if (joined.ok) props.onJoined(joined.session);
    else setFault(joined.message);
  }
  return (
    <main class="join">
      <p class="wordmark">Traytide</p>
      <h1>Join the kitchen</h1>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void submit();
        }}
      >
        <TextField label="Your name" value={name()} onInput={setName} maxLength={40} capitalise="words" />
        <TextField
          label="Join code"
          value={code()}
          onInput={setCode}
          maxLength={20}
          capitalise="characters"
          hint="On the server's screen. Scanning the code there fills it in."
        />
        <Show when={fault()}>
          <p class="field-error" role="alert">
            {fault()}
          </p>
        </Show>
        <button type="submit" class="act" disabled={busy()}>
          {busy() ? "Joining…" : "Join"}
          <small>this first tap also lets the phone sound its alerts</small>
        </button>
      </form>
    </main>
  );
}
