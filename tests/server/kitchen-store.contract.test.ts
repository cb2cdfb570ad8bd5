import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { Device } from "#server/log/device-store.ts";
import type { KitchenStore } from "#server/log/store.ts";
import { asId, type DesignId } from "#shared/ids.ts";
import { START_MS } from "../support/server-timers.ts";
import { type OpenedStore, STORES } from "../support/stores.ts";

const device = (deviceId: string, more: Partial<Device> = {}): Device => ({
  deviceId,
  kind: "phone",
  personId: asId("wren"),
  mayLead: true,
  seenMs: START_MS,
  ...more,
});

describe.each(STORES)("what a kitchen keeps, %s", (_name, open) => {
  let opened: OpenedStore;
  let store: KitchenStore;

  beforeEach(async () => {
    opened = await open();
    ({ store } = opened);
  }, 60_000);
  afterEach(() => opened.done());

  describe("devices", () => {
    test("are known by their token from the moment they were added, and by no other", async () => {
      const phone = device("phone-1", { mayLead: false });
      await store.devices.add(phone, "token-1");
      expect(await store.devices.byToken("token-1")).toEqual(phone);
      expect(await store.devices.byToken("token-2")).toBeUndefined();
      expect(await store.devices.byToken("")).toBeUndefined();
    });

    test("are listed in the order they joined", async () => {
      const three = [3, 1, 2].map((k) => device(`phone-${k}`, { seenMs: START_MS + k, kind: "wall" }));
      for (const one of three) await store.devices.add(one, one.deviceId);
      expect((await store.devices.list()).map(({ deviceId }) => deviceId)).toEqual([
        "phone-1",
        "phone-2",
        "phone-3",
      ]);
    });

    test("once forgotten their token is worthless, and forgetting again says that there is none", async () => {
      await store.devices.add(device("phone-1"), "token-1");
      await store.devices.add(device("phone-2"), "token-2");
      expect(await store.devices.forget("phone-1", START_MS)).toBe(true);
      expect(await store.devices.byToken("token-1")).toBeUndefined();
      expect((await store.devices.list()).map(({ deviceId }) => deviceId)).toEqual(["phone-2"]);
      expect(await store.devices.forget("phone-1", START_MS)).toBe(false);
      expect(await store.devices.forget("phone-9", START_MS)).toBe(false);
    });

    test("when one was last seen is written down, but no more than once a minute", async () => {
      await store.devices.add(device("phone-1"), "token-1");
      const seenMs = async () => (await store.devices.byToken("token-1"))?.seenMs;
      await store.devices.saw("phone-1", START_MS + 70_000);
      expect(await seenMs()).toBe(START_MS + 70_000);
      await store.devices.saw("phone-1", START_MS + 100_000);
      expect(await seenMs()).toBe(START_MS + 70_000);
      await store.devices.saw("phone-1", START_MS + 130_000);
      expect(await seenMs()).toBe(START_MS + 130_000);
    });

    test("two cannot hold one token", async () => {
      await store.devices.add(device("phone-1"), "token-1");
      await expect(store.devices.add(device("phone-2"), "token-1")).rejects.toThrow();
      expect(await store.devices.list()).toHaveLength(1);
    });
  });

  describe("values", () => {
    test("are made on first asking and kept; those who ask at once get the same", async () => {
      expect(await store.values.get("code")).toBeUndefined();
      let made = 0;
      const ask = (): Promise<string> => store.values.getOrCreate("code", () => `code-${(made += 1)}`);
      const asked = await Promise.all([ask(), ask(), ask()]);
      expect(new Set(asked).size).toBe(1);
      expect(await ask()).toBe(asked[0]);
      expect(await store.values.get("code")).toBe(asked[0]);
    });

    test("are replaced and removed together", async () => {
      await store.values.put({ old: "1", kept: "2" });
      await store.values.put({ old: undefined, fresh: "3" });
      const held = await Promise.all(["old", "kept", "fresh"].map((key) => store.values.get(key)));
      expect(held).toEqual([undefined, "2", "3"]);
    });
  });

  describe("photos", () => {
    const moon = asId<DesignId>("moon");
    const jpeg = (byte: number): Buffer => Buffer.from([0xff, 0xd8, 0xff, byte]);

    test("are given back as they were put, the newest of a design", async () => {
      expect(await store.photos.get(moon)).toBeUndefined();
      await store.photos.put(moon, jpeg(1));
      await store.photos.put(moon, jpeg(2));
      expect(await store.photos.get(moon)).toEqual(jpeg(2));
      expect(await store.photos.ids()).toEqual(["moon"]);
    });

    test("go when they are removed, and removing what is not there harms nothing", async () => {
      await store.photos.put(moon, jpeg(1));
      await store.photos.remove(moon);
      await store.photos.remove(asId("sun"));
      expect(await store.photos.get(moon)).toBeUndefined();
      expect(await store.photos.ids()).toEqual([]);
    });
  });
});
