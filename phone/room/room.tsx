import { For, Show, createMemo } from "solid-js";
import { sortedByName } from "#shared/kitchen/model/by-name.ts";
import { forPerson } from "#shared/kitchen/alerts/due.ts";
import { AlertCard } from "#phone/alerts/alert-card.tsx";
import { AlertMeans } from "#phone/alerts/alert-means.tsx";
import { Choice } from "#phone/ui/fields.tsx";
import { LanguageField } from "#phone/ui/language-field.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { People } from "./people.tsx";
import { PlaceAir } from "./place-air.tsx";

/** The room: its air, its alerts, its people, and this phone. */
export function Room() {
  const { board, isLead, theme, leave } = usePhone();
  const places = createMemo(() => sortedByName(board.kitchen().places));
  const alerts = createMemo(() =>
    Object.values(board.kitchen().alerts).filter((alert) =>
      forPerson(alert, board.me.personId, board.role()),
    ),
  );
  return (
    <main>
      <h1>Room</h1>
      <Show when={alerts().length > 0}>
        <section class="alerts in-room" aria-label="All alerts">
          <For each={alerts()}>{(alert) => <AlertCard alert={alert} />}</For>
        </section>
      </Show>
      <a class="plain wide" href="#/kitchen/day">
        Today's air beside other days
      </a>
      <ul class="cards">
        <For each={places()} fallback={<li class="quiet">No places yet. A lead adds them under Kitchen.</li>}>
          {(place) => <PlaceAir place={place} />}
        </For>
      </ul>
      <Show when={isLead()}>
        <h2>Kitchen</h2>
        <nav class="choices" aria-label="Kitchen">
          <a href="#/kitchen/trust">How this kitchen dries</a>
          <a href="#/kitchen/settings">Settings</a>
          <a href="#/kitchen/places">Places</a>
          <a href="#/kitchen/hygrometers">Hygrometers</a>
          <a href="#/kitchen/tools">Heat tools</a>
          <a href="#/icings">Icings</a>
          <a href="#/designs">Designs</a>
        </nav>
      </Show>
      <h2>People</h2>
      <People />
      <AlertMeans />
      <Choice
        label="Theme"
        value={theme.choice()}
        options={[
          { value: "auto", name: "As the phone" },
          { value: "day", name: "Day" },
          { value: "night", name: "Night" },
        ]}
        onChange={(choice) => theme.choose(choice)}
      />
      <LanguageField />
      <button type="button" class="plain wide" onClick={leave}>
        Leave this kitchen on this phone
      </button>
    </main>
  );
}
