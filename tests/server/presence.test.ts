import { describe, expect, test } from "vitest";
import type { Device } from "#server/log/device-store.ts";
import { presenceBook } from "#server/live/presence.ts";
import type { DeviceKind } from "#shared/kitchen/model/vocabulary.ts";
import { asId } from "#shared/ids.ts";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";

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

describe("several servers of one kitchen", () => {
  const wren = device("d1", "wren");
  const told = (book: ReturnType<typeof presenceBook>, atMs: number, agoMs = 0) => [
    { page: book.page(atMs), agoMs },
  ];

  test("S2 who is here by another server is here, until that server is gone", () => {
    const [one, two] = [presenceBook(0), presenceBook(0)];
    two.came("s1", wren, true);
    two.heard(wren, 500);
    expect(one.others(told(two, 1000), 1000)).toBe(true);
    expect(one.now(EMPTY_KITCHEN).devices).toMatchObject([{ deviceId: "d1", canAlert: true }]);
    expect(one.others(told(two, 1000), 1500)).toBe(false);
    expect(one.others([], 2000)).toBe(true);
    expect(one.now(EMPTY_KITCHEN).devices).toEqual([]);
  });

  test("S2 a phone that another server heard is lost 10 s after that, though the server died meanwhile", () => {
    const [one, two] = [presenceBook(0), presenceBook(0)];
    two.came("s1", wren, true);
    two.heard(wren, 20_000);
    one.others(told(two, 21_000, 500), 21_500);
    one.others([], 24_000);
    expect([...one.lostPeople(30_000)]).toEqual([]);
    expect([...one.lostPeople(30_001)]).toEqual(["wren"]);
  });

  test("S2 a server that joins the others waits for nobody anew", () => {
    const [one, two] = [presenceBook(0), presenceBook(60_000)];
    one.came("s1", wren, true);
    one.heard(wren, 1000);
    two.heard(wren, 60_000);
    expect([...two.lostPeople(60_000, ["wren"])]).toEqual([]);
    two.others(told(one, 60_000), 60_000);
    expect([...two.lostPeople(60_000, ["wren"])]).toEqual(["wren"]);
    one.others(told(two, 60_000), 60_000);
    expect([...one.lostPeople(60_000)]).toEqual(["wren"]);
  });

  test("S2 what another version tells is passed over", () => {
    const one = presenceBook(0);
    for (const page of ['{"here":[{"x":1}]}', "{", ""])
      expect(one.others([{ page, agoMs: 0 }], 0)).toBe(false);
  });
});
