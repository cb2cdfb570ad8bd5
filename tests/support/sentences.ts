import { readFileSync } from "node:fs";
import { parseAst } from "vite";

interface Node {
  type: string;
  start: number;
  [key: string]: unknown;
}

const isNode = (value: unknown): value is Node =>
  typeof value === "object" && value !== null && typeof (value as Node).type === "string";

const childrenOf = (node: Node): Node[] => Object.values(node).flat().filter(isNode);

/** Attributes that no reader sees. */
const HIDDEN = /^(class|d|viewBox|style|href|type|pattern|transform|autocomplete|inputmode|data-.*)$/;
/** Errors for programmers: no screen shows them. */
const ERRORS = /^(Error|RangeError|TypeError|ReferenceError)$/;

/** Text in the code of a file that a person could read: JSX text with letters, and literals of two words or more. */
export interface Sentence {
  line: number;
  text: string;
}

/** What stands for something in types or in a list of a schema is a code, not a sentence. */
export function codesIn(file: string): string[] {
  const codes: string[] = [];
  const visit = (node: Node): void => {
    if (node.type === "TSLiteralType" && isNode(node["literal"]))
      codes.push(String(node["literal"]["value"]));
    if (node.type === "CallExpression" && /^(oneOf|picklist|literal)$/.test(calleeOf(node)))
      for (const list of childrenOf(node)) codes.push(...stringsOf(list));
    if (node.type === "TSAsExpression" && isConst(node)) codes.push(...stringsOf(node));
    if (node.type === "Property" && isNode(node["key"]) && node["key"].type === "Literal")
      codes.push(String(node["key"]["value"]));
    childrenOf(node).forEach(visit);
  };
  parse(file).forEach(visit);
  return codes;
}

export function sentencesIn(file: string, codes: ReadonlySet<string>): Sentence[] {
  const source = readFileSync(file, "utf8");
  const found: Sentence[] = [];
  const visit = (node: Node): void => {
    if (
      node.type.startsWith("Import") ||
      (node.type.startsWith("TS") && /Literal|TypeReference|Union/.test(node.type))
    )
      return;
    if (node.type === "JSXAttribute" && HIDDEN.test(nameOf(node))) return;
    if (node.type === "NewExpression" && ERRORS.test(calleeOf(node))) return;
    const text = textOf(node);
    if (text !== undefined && !codes.has(text) && isReadable(node, text))
      found.push({ line: source.slice(0, node.start).split("\n").length, text });
    childrenOf(node).forEach(visit);
  };
  parse(file).forEach(visit);
  return found;
}

const parse = (file: string): Node[] =>
  parseAst(readFileSync(file, "utf8"), { lang: file.endsWith("x") ? "tsx" : "ts" }).body as unknown as Node[];

const isReadable = (node: Node, text: string): boolean =>
  node.type === "JSXText" ? /\p{L}{2}/u.test(text) : /\p{L}{2,}[,.:;]? \p{L}{2,}/u.test(text);

function textOf(node: Node): string | undefined {
  if (node.type === "JSXText") return String(node["value"]).trim();
  if (node.type === "Literal" && typeof node["value"] === "string") return node["value"];
  if (node.type !== "TemplateLiteral") return undefined;
  const quasis = node["quasis"] as { value: { cooked: string } }[];
  return quasis.map(({ value }) => value.cooked).join("…");
}

const calleeOf = ({ callee }: Node): string =>
  isNode(callee)
    ? String(callee["name"] ?? (isNode(callee["property"]) ? callee["property"]["name"] : ""))
    : "";

const nameOf = ({ name }: Node): string => (isNode(name) ? String(name["name"]) : "");

const isConst = ({ typeAnnotation }: Node): boolean =>
  isNode(typeAnnotation) &&
  isNode(typeAnnotation["typeName"]) &&
  typeAnnotation["typeName"]["name"] === "const";

const stringsOf = (node: Node): string[] =>
  node.type === "Literal" && typeof node["value"] === "string"
    ? [node["value"]]
    : childrenOf(node).flatMap(stringsOf);
