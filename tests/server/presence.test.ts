import { describe, expect, test } from "vitest";
import type { Device } from "#server/log/device-store.ts";
import { presenceBook } from "#server/live/presence.ts";
import type { DeviceKind } from "#shared/kitchen/model/vocabulary.ts";
import { asId } from "#shared/ids.ts";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/evolve.ts";

const device = (deviceId: string, personId: string, kind: DeviceKind = "phone"): Device => ({
  deviceId,
  kind,
  personId: asId(personId),
  mayLead: true,
  seenMs: 0,
});

describe("who can be heard", () => {
  test("a person is lost once none of their phones was heard for more than 10 s", () => {
    const book = presenceBook(0);
    const [one, two] = [device("d1", "wren"), device("d2", "wren")];
    book.came("s1", one, true);
    book.came("s2", two, true);
    book.heard(one, 0);
    book.heard(two, 5000);
    book.went("s1");
    expect([...book.lostPeople(15_000)]).toEqual([]);
    expect([...book.lostPeople(15_001)]).toEqual(["wren"]);
    book.heard(one, 16_000);
    expect([...book.lostPeople(16_000)]).toEqual([]);
  });

  test("A10 a person is lost too when what could sound fell silent and what is left cannot", () => {
    const book = presenceBook(0);
    const [phone, oldTab] = [device("d1", "wren"), device("d2", "wren")];
    book.came("s1", phone, true);
    book.came("s2", oldTab, false);
    for (const one of [phone, oldTab]) book.heard(one, 0);
    expect([...book.lostPeople(10_000)]).toEqual([]);
    book.heard(oldTab, 10_000);
    expect([...book.lostPeople(10_001)]).toEqual(["wren"]);
    book.came("s2", oldTab, true);
    expect([...book.lostPeople(10_001)]).toEqual([]);
  });

  test("A10 a phone that was reloaded, muted or went dark is out of reach after 10 s, though it is heard, until it can sound", () => {
    const book = presenceBook(0);
    const phone = device("d1", "wren");
    book.came("s1", phone, true);
    book.heard(phone, 60_000);
    book.came("s2", phone, false);
    for (const ms of [60_100, 65_000, 70_000]) {
      book.heard(phone, ms);
      expect([...book.lostPeople(ms)]).toEqual([]);
    }
    book.heard(phone, 70_001);
    expect([...book.lostPeople(70_001)]).toEqual(["wren"]);
    book.came("s2", phone, true);
    expect([...book.lostPeople(70_001)]).toEqual([]);
  });

  test("A10 whoever is expected and was never heard is lost 10 s after the server is there", () => {
    const book = presenceBook(1000);
    expect([...book.lostPeople(11_000, ["sol"])]).toEqual([]);
    expect([...book.lostPeople(11_001, ["sol"])]).toEqual(["sol"]);
    const phone = device("d1", "sol");
    book.came("s1", phone, true);
    book.heard(phone, 11_500);
    expect([...book.lostPeople(12_000, ["sol"])]).toEqual([]);
  });

  test("whoever was never here and is not expected is not lost, nor is a wall or a sensor", () => {
    const book = presenceBook(0);
    book.heard(device("d1", "main-wall", "wall"), 0);
    book.heard(device("d2", "rack-air", "sensor"), 0);
    expect([...book.lostPeople(60_000)]).toEqual([]);
  });

  test("a device with two pages open is one device, and can alert if either can", () => {
    const book = presenceBook(0);
    const kitchen = {
      ...EMPTY_KITCHEN,
      people: { wren: { id: asId<never>("wren"), name: "Wren", role: "lead" as const } },
    };
    book.came("s1", device("d1", "wren"), true);
    book.came("s2", device("d1", "wren"), false);
    book.came("s3", device("d2", "wren", "bench"), false);
    expect(book.now(kitchen).devices).toEqual([
      { deviceId: "d1", personId: "wren", role: "lead", name: "Wren", canAlert: true },
      { deviceId: "d2", personId: "wren", role: "decorator", name: "Wren", canAlert: false },
    ]);
    book.went("s1");
    expect(book.now(kitchen).devices[0]).toMatchObject({ deviceId: "d1", canAlert: false });
  });
});
