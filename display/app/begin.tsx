import { createResource, type JSX, Show } from "solid-js";
import { Qr } from "#shared/client/screen/qr.tsx";
import { useWords } from "#shared/client/screen/language.ts";
import { leadsHere } from "#shared/kitchen/model/people.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { type Invite, joinAddress } from "#shared/protocol/invite.ts";

/** A kitchen with nothing on the racks: how to begin. */
export function Begin(props: {
  kitchen: Kitchen;
  /** What phones join with, asked of the server; undefined where it does not say. */
  invite: () => Promise<Invite | undefined>;
}): JSX.Element {
  const words = useWords();
  const begin = () => words().wall.begin;
  const isSetUp = (): boolean => props.kitchen.isSetUp;
  const hasLead = (): boolean => leadsHere(props.kitchen).length > 0;
  const [invite] = createResource(() => props.invite());
  return (
    <main class="begin">
      <div>
        <h1>{isSetUp() ? begin().title : begin().setUpTitle}</h1>
        <ol>
          <li>
            {begin().network}{" "}
            <b>{invite() === undefined ? begin().addressOnServer : `${invite()!.origin}/phone/`}</b>
          </li>
          <li>
            {begin().withCode} <b class="code">{invite()?.joinCode ?? begin().codeOnServer}</b>
          </li>
          <Show when={!isSetUp()}>
            <li>{hasLead() ? begin().leadsSetUp : begin().firstLeads}</li>
          </Show>
          <li>{begin().enterOrder}</li>
        </ol>
        <Show when={!isSetUp()}>
          <p class="soft">
            {begin().practice} <b class="option">--practice</b>.
          </p>
        </Show>
      </div>
      <Show when={invite()}>
        {(invite) => (
          <div class="qr">
            <Qr text={joinAddress(invite())} label={joinAddress(invite())} />
          </div>
        )}
      </Show>
    </main>
  );
}
