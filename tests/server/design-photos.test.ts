import { mkdtemp, readdir, rm, stat } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { LIMITS } from "#shared/limits.ts";
import { design, icing, layer } from "../support/furnishings.ts";
import { LEAD_CODE, startServer, type TestServer } from "../support/server-app.ts";

const PATH = "/api/designs/moon/photo";
const JPEG = Buffer.concat([Buffer.from([0xff, 0xd8, 0xff, 0xe0]), Buffer.alloc(2000, 7)]);

let folder: string;
let server: TestServer;
let lead: string;
let decorator: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "traytide-photos-test-"));
  server = await startServer({ photosFolder: folder });
  ({ token: lead } = await server.join("Ida", undefined, LEAD_CODE));
  ({ token: decorator } = await server.join("Wren"));
  const moon = design("moon", "Moon", 70, [layer("top", "top-coat", "butter", { narrowestMm: 60 })]);
  await server.command(lead, { commandId: "c1", type: "put-icing", icing: icing("butter") });
  await server.command(lead, { commandId: "c2", type: "put-design", design: moon });
});
afterEach(async () => {
  await server.close();
  await rm(folder, { recursive: true, force: true });
});

const put = async (token: string, body: Buffer, path = PATH): Promise<Response> =>
  fetch(`http://127.0.0.1:${server.port}${path}`, {
    method: "PUT",
    headers: { authorization: `Bearer ${token}`, "content-type": "image/jpeg" },
    body: new Uint8Array(body),
  });
const get = async (token: string): Promise<Response> =>
  fetch(`http://127.0.0.1:${server.port}${PATH}`, { headers: { authorization: `Bearer ${token}` } });

describe("P30 a design's photo", () => {
  it("that a lead shares is a file that only the server's account reads, and every joined device gets it", async () => {
    expect((await put(lead, JPEG)).status).toBe(200);
    expect(await readdir(folder)).toEqual(["moon.jpg"]);
    expect((await stat(join(folder, "moon.jpg"))).mode & 0o077).toBe(0);
    const answer = await get(decorator);
    expect(answer.headers.get("content-type")).toBe("image/jpeg");
    expect(Buffer.from(await answer.arrayBuffer()).equals(JPEG)).toBe(true);
  });

  it("is a lead's to share, and nobody's to see who has not joined", async () => {
    expect((await put(decorator, JPEG)).status).toBe(403);
    expect((await put("nobody", JPEG)).status).toBe(401);
    expect((await get("nobody")).status).toBe(401);
    expect(await readdir(folder)).toEqual([]);
  });

  it("must be a JPEG of at most 400 kB, of a design that is there: else a sentence, and nothing kept", async () => {
    const answers = [
      await put(lead, Buffer.from("<svg/>")),
      await put(lead, Buffer.concat([JPEG, Buffer.alloc(LIMITS.photoBytes)])),
      await put(lead, JPEG, "/api/designs/sun/photo"),
      await put(lead, JPEG, "/api/designs/..%2F..%2Fmoon/photo"),
    ];
    const said = await Promise.all(answers.map(async (answer) => [answer.status, await messageOf(answer)]));
    expect(said).toEqual([
      [400, "body must be a JPEG file."],
      [413, "The body is too large: it must be at most 400 kB."],
      [404, "designId must name one of the kitchen's designs: there is no sun."],
      [400, expect.stringMatching(/^designId must be/)],
    ]);
    expect(await readdir(folder)).toEqual([]);
    expect((await get(lead)).status).toBe(204);
  });

  it("goes with its design", async () => {
    await put(lead, JPEG);
    await server.command(lead, { commandId: "c3", type: "remove-design", designId: "moon" });
    await expect.poll(async () => readdir(folder)).toEqual([]);
  });

  it("of a design that is not there any more is removed as the server starts", async () => {
    await put(lead, JPEG);
    const other = await startServer({ photosFolder: folder });
    expect(await readdir(folder)).toEqual([]);
    await other.close();
  });
});

const messageOf = async (answer: Response): Promise<unknown> =>
  ((await answer.json()) as { message: string }).message;
