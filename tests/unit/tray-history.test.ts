import { describe, expect, it } from "vitest";
import { actFact } from "#shared/kitchen/tray/act-facts.ts";
import { english } from "#shared/words/en/index.ts";
import { cookieNumbers } from "#shared/kitchen/tray/fold.ts";
import { aKitchen, MIN, type Scene } from "../support/scene.ts";

/** A tray's history as its screen tells it. */
function history(scene: Scene, trayId: string): string[] {
  const tray = scene.tray(trayId);
  const design = scene.kitchen.designs[tray.designId]!;
  const numbers = cookieNumbers(tray, design);
  return tray.history.map(({ act }) =>
    english("metric", "UTC").acts.say(actFact(scene.kitchen, design, act, numbers.get(act.actId))),
  );
}

describe("the words of a tray's history", () => {
  it("a layer was piped, flooded or top-coated, as its consistency has it", () => {
    const scene = aKitchen();
    scene.act("start-flooding", { trayId: "t1" });
    scene.later(MIN).act("flooded", { trayId: "t1" });
    scene.later(MIN).act("start-flooding", { trayId: "t1" });
    scene.later(MIN).act("flooded", { trayId: "t1" });
    scene.act("start-flooding", { trayId: "t2" });
    scene.later(MIN).act("flooded", { trayId: "t2" });
    expect(history(scene, "t1")).toEqual([
      "piping of layer 1 (sea glass) started",
      "layer 1 (sea glass) piped, drying clock started",
      "flooding of layer 2 (sea glass) started",
      "layer 2 (sea glass) flooded, drying clock started",
    ]);
    expect(history(scene, "t2")).toEqual([
      "top-coating of layer 1 (storm) started",
      "layer 1 (storm) top-coated, drying clock started",
    ]);
  });

  it("H1 each cookie that had its lap has its number, over several heat-sets and with one taken back", () => {
    const scene = aKitchen();
    const heat = { trayId: "t2", toolId: "hot-1" };
    scene.act("flooded", { trayId: "t2" });
    scene.later(MIN).act("start-heat-set", heat);
    scene.later(MIN).nextCookie("t2");
    const slip = scene.later(MIN).act("next-cookie", { trayId: "t2" });
    scene.act("take-back", { trayId: "t2", actId: slip });
    scene.later(MIN).nextCookie("t2");
    scene.later(MIN).act("end-heat-set", { trayId: "t2", result: "set" });
    scene.later(MIN).act("start-heat-set", heat);
    scene.later(MIN).nextCookie("t2");
    expect(history(scene, "t2").filter((words) => words.startsWith("cookie"))).toEqual([
      "cookie 1 set",
      "cookie 2 set",
      "cookie 2 set",
      "cookie 4 set",
    ]);
  });
});
