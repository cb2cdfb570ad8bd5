import { Show } from "solid-js";
import { Qr } from "#shared/client/screen/qr.tsx";
import { type Invite, joinAddress } from "#shared/protocol/invite.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { createAnswer } from "#phone/ui/answer.ts";
import { askFaultWords } from "#phone/ui/ask.ts";
import { MIN_MS } from "#shared/time.ts";

const ASK_EVERY_MS = 5 * MIN_MS;

/** What another phone joins with, on a lead's: the code, the address, and both as a QR code to point a camera at. */
export function InviteCard() {
  const { words } = usePhone();
  const answer = createAnswer<Invite>(() => "invite", ASK_EVERY_MS);
  const invite = () => {
    const given = answer();
    return given?.ok === true ? given.value : undefined;
  };
  const why = (): string => {
    const given = answer();
    return given?.ok === false ? askFaultWords(words(), given.fault) : words().desk.invite.asking;
  };
  return (
    <Show when={invite()} fallback={<p class="quiet">{why()}</p>}>
      {(invite) => (
        <section class="card invite" aria-label={words().desk.invite.title}>
          <Qr class="invite-qr" text={joinAddress(invite())} label={joinAddress(invite())} />
          <p>
            {words().desk.invite.scan} <b>{`${invite().origin}/phone/`}</b>
          </p>
          <p>
            {words().desk.invite.code} <b class="invite-code">{invite().joinCode}</b>
          </p>
        </section>
      )}
    </Show>
  );
}
