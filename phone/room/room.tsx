import { For, Show, createMemo } from "solid-js";
import { sortedByName } from "#shared/collections.ts";
import { forPerson } from "#shared/kitchen/alerts/shown.ts";
import { AlertCard } from "#phone/alerts/alert-card.tsx";
import { AlertMeans } from "#phone/alerts/alert-means.tsx";
import { Choice } from "#phone/ui/plain-field.tsx";
import { LanguageField } from "#phone/ui/language-field.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { Page } from "#phone/ui/page.tsx";
import { useStory } from "#phone/story/create-story.ts";
import { Folded } from "#phone/ui/folded.tsx";
import { InviteCard } from "./invite.tsx";
import { People } from "./people.tsx";
import { PlaceAir } from "./place-air.tsx";

/** The room: its air, its alerts, its people, and this phone. */
export function Room() {
  const { board, isLead, theme, leave, go, words } = usePhone();
  const story = useStory();
  const titles = () => words().app.titles;
  const places = createMemo(() => sortedByName(board.kitchen().places));
  const alerts = createMemo(() =>
    Object.values(board.kitchen().alerts).filter((alert) =>
      forPerson(alert, board.me.personId, board.role()),
    ),
  );
  function startStory(): void {
    story.again();
    go("");
  }
  return (
    <Page>
      <h1>{titles().room}</h1>
      <Show when={board.practice()}>
        <button type="button" class="plain wide" onClick={startStory}>
          {words().story.again}
        </button>
      </Show>
      <Show when={alerts().length > 0}>
        <section class="alerts in-room" aria-label={words().room.allAlerts}>
          <For each={alerts()}>{(alert) => <AlertCard alert={alert} />}</For>
        </section>
      </Show>
      <a class="plain wide" href="#/kitchen/day">
        {words().room.dayLink}
      </a>
      <a class="plain wide" href="#/kitchen/hand-over">
        {titles()["hand-over"]}
      </a>
      <ul class="cards">
        <For each={places()} fallback={<li class="quiet">{words().room.noPlaces}</li>}>
          {(place) => <PlaceAir place={place} />}
        </For>
      </ul>
      <Show when={isLead()}>
        <h2>{words().room.kitchen}</h2>
        <nav class="choices" aria-label={words().room.kitchen}>
          <a href="#/kitchen/trust">{titles().trust}</a>
          <a href="#/kitchen/settings">{titles().settings}</a>
          <a href="#/kitchen/places">{titles().places}</a>
          <a href="#/kitchen/hygrometers">{titles().hygrometers}</a>
          <a href="#/kitchen/tools">{titles().tools}</a>
          <a href="#/icings">{titles().icings}</a>
          <a href="#/recipes">{titles().recipes}</a>
          <a href="#/designs">{titles().designs}</a>
        </nav>
      </Show>
      <h2>{words().room.people}</h2>
      <Show when={isLead()}>
        <Folded title={words().desk.invite.title}>
          <InviteCard />
        </Folded>
      </Show>
      <People />
      <Show when={isLead()}>
        <nav class="choices" aria-label={words().room.people}>
          <a href="#/kitchen/devices">{titles().devices}</a>
          <a href="#/kitchen/backups">{titles().backups}</a>
          <a href="#/kitchen/done">{titles().done}</a>
        </nav>
      </Show>
      <AlertMeans />
      <Choice
        label={words().app.theme.label}
        value={theme.choice()}
        options={[
          { value: "auto", name: words().app.theme.auto },
          { value: "day", name: words().app.theme.day },
          { value: "night", name: words().app.theme.night },
        ]}
        onChange={(choice) => theme.choose(choice)}
      />
      <LanguageField />
      <button type="button" class="plain wide" onClick={leave}>
        {words().room.leave}
      </button>
    </Page>
  );
}
