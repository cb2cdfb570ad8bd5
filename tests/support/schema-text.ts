/** What of a schema says which values it takes; not its messages, nor the order in which an object names its fields. */
const PARTS: ReadonlySet<string> = new Set([
  "type",
  "literal",
  "options",
  "entries",
  "item",
  "wrapped",
  "key",
  "value",
  "requirement",
  "default",
]);

/**
 * A valibot schema as one text: the same as long as it takes the same values. A check by a function is known by its place only.
 */
export function schemaText(schema: unknown): string {
  if (schema instanceof RegExp) return String(schema);
  if (Array.isArray(schema)) return `[${schema.map(schemaText).join(",")}]`;
  if (typeof schema === "function") return "a function";
  if (typeof schema !== "object" || schema === null) return JSON.stringify(schema) ?? "undefined";
  const isPart = "kind" in schema;
  // In a pipe the schema itself stands first.
  const pipe = "pipe" in schema && Array.isArray(schema.pipe) ? schema.pipe.slice(1) : [];
  const own = Object.entries(schema)
    .filter(([name]) => !isPart || PARTS.has(name))
    .toSorted(([a], [b]) => (a < b ? -1 : 1))
    .map(([name, value]) => `${name}:${schemaText(value)}`);
  return `{${own.join(",")}}${pipe.map((step) => `|${schemaText(step)}`).join("")}`;
}
