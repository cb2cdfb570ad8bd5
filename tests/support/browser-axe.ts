import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type * as axe from "axe-core";
import type { Page } from "playwright";
import type { Finding } from "./browser-audit.ts";

const source = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** What axe-core finds wrong with a page, of any weight, each as its rule, its weight and where. */
export async function axeFindings(page: Page): Promise<Finding[]> {
  // By the debugger's way in, which the page's content rules do not reach.
  if (!(await page.evaluate(() => "axe" in window))) await page.evaluate(source);
  return page.evaluate(async () => {
    const { axe } = window as unknown as { axe: typeof import("axe-core") };
    const found: axe.AxeResults = await axe.run(document, { resultTypes: ["violations"], iframes: false });
    return found.violations.flatMap(({ id, impact, nodes }) =>
      nodes.map(({ target, failureSummary }) => {
        const why = failureSummary?.split("\n").at(1)?.trim() ?? "";
        return `${impact} ${id}: ${target.join(" ")}: ${why}`;
      }),
    );
  });
}
