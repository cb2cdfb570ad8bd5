import { execFileSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, test } from "vitest";

const root = fileURLToPath(new URL("../..", import.meta.url));
let copy: string;

beforeAll(() => {
  copy = mkdtempSync(join(tmpdir(), "traytide-to-add-"));
  for (const part of ["shared", "server", "display", "phone", "package.json"])
    cpSync(join(root, part), join(copy, part), { recursive: true });
  symlinkSync(join(root, "node_modules"), join(copy, "node_modules"));
  const { compilerOptions } = JSON.parse(readFileSync(join(root, "tsconfig.json"), "utf8")) as {
    compilerOptions: object;
  };
  writeFileSync(
    join(copy, "tsconfig.json"),
    JSON.stringify({ compilerOptions, include: ["server", "display", "phone", "shared"] }),
  );
});
afterAll(() => rmSync(copy, { recursive: true, force: true }));

/** A line put into a file before another. */
interface Edit {
  file: string;
  before: string;
  line: string;
}

/** The files that the compiler finds something missing in. */
function filesAtFault(): string[] {
  try {
    execFileSync(process.execPath, [join(root, "node_modules/typescript/bin/tsc"), "--noEmit", "-p", copy], {
      cwd: copy,
      encoding: "utf8",
      stdio: "pipe",
    });
    return [];
  } catch (error) {
    const { stdout } = error as { stdout: string };
    return [
      ...new Set([...stdout.matchAll(/^(\S+?)\(\d+,\d+\): error/gm)].map(([, file]) => file!)),
    ].toSorted();
  }
}

function edit({ file, before, line }: Edit): void {
  const path = join(copy, file);
  const text = readFileSync(path, "utf8");
  expect(text.split(before).length, `${file} has "${before}" once`).toBe(2);
  writeFileSync(
    path,
    text.replace(before, () => `${line}\n${before}`),
  );
}

interface Kind {
  what: string;
  /** Its entry: from here on the compiler names what is missing. */
  entry: Edit;
  /** What it names. */
  missing: readonly Edit[];
  /** What no type can ask for: the rule or the component of its own. */
  own: readonly string[];
}

/** DEVELOPERS.md, "To add". */
const KINDS: readonly Kind[] = [
  {
    what: "a command",
    entry: {
      file: "shared/kitchen/model/command.ts",
      before: '  command("set-role", {',
      line: '  command("ring-bell", {}),',
    },
    missing: [
      {
        file: "shared/kitchen/commands/table.ts",
        before: '  "caution-read": {',
        line: '  "ring-bell": { senders: team, undo: noUndo, decide: () => ({ ok: true, value: [] }) },',
      },
    ],
    own: ["shared/kitchen/commands/bell.ts", "tests/support/golden-kitchen.ts"],
  },
  {
    what: "an event",
    entry: {
      file: "shared/kitchen/model/event.ts",
      before: '  event("caution-read", {',
      line: '  event("bell-rung", {}),',
    },
    missing: [
      {
        file: "shared/kitchen/events/evolve.ts",
        before: '    case "caution-read":',
        line: '    case "bell-rung":\n      return kitchen;',
      },
      {
        file: "server/forecast/touched.ts",
        before: '  "caution-read":',
        line: '  "bell-rung": "nothing",',
      },
    ],
    own: ["tests/support/golden-kitchen.ts"],
  },
  {
    what: "an alert",
    entry: {
      file: "shared/kitchen/model/alert-kinds.ts",
      before: '  "sensor-silent": {',
      line: '  "bell-broken": { group: "air", class: "note", facts: {}, recipients: () => ({ wall: true }) },',
    },
    missing: ["en", "es"].map((language) => ({
      file: `shared/words/${language}/alerts.ts`,
      before: '    "air-changed": (',
      line: '    "bell-broken": () => ({ act: "…", what: "…", todo: "…" }),',
    })),
    own: ["shared/kitchen/alerts/bell.ts"],
  },
  {
    what: "a phone screen",
    // Its English title, which is also its name.
    entry: { file: "shared/words/en/app.ts", before: '    heat: "', line: '    bells: "…",' },
    missing: [
      {
        file: "phone/app/screens.tsx",
        before: '  heat: { path: "heat",',
        line: '  bells: { path: "bells", parent: "room", view: HeatTab },',
      },
      { file: "shared/words/es/app.ts", before: '    heat: "', line: '    bells: "…",' },
    ],
    own: ["phone/room/bells.tsx"],
  },
  {
    what: "a setting",
    entry: {
      file: "shared/kitchen/model/settings.ts",
      before: "  houseRules: setting(",
      line: '  bellS: setting(v.optional(between(1, 60, "s")), 5),',
    },
    missing: ["en", "es"].map((language) => ({
      file: `shared/words/${language}/set-up.ts`,
      before: "    mqtt: { label",
      line: '    bellS: { label: "…" },',
    })),
    own: [],
  },
];

test("a command, an event, an alert, a screen and a setting are added in four files at most, and the compiler names what is missing", () => {
  for (const { entry } of KINDS) edit(entry);
  const missing = KINDS.flatMap((kind) => kind.missing);
  expect(filesAtFault()).toEqual([...new Set(missing.map(({ file }) => file))].toSorted());
  missing.forEach(edit);
  expect(filesAtFault()).toEqual([]);
  for (const { what, entry, missing: rest, own } of KINDS) {
    const files = new Set([entry.file, ...rest.map(({ file }) => file), ...own]);
    expect(files.size, what).toBeLessThanOrEqual(4);
  }
}, 120_000);
