import type { Page } from "playwright";

/** Something on a page that is too low, too wide or without a name, in words. */
export type Finding = string;

/** What a finger is to hit; native boxes are hit through their labels, a link within a sentence is not one. */
const TARGETS = "button, a[href], select, summary, input, textarea, label:has(input)";

/** Targets lower than `leastPx`, and main acts (`.act`) lower than `leastActPx`. */
export const lowTargets = (page: Page, leastPx: number, leastActPx: number): Promise<Finding[]> =>
  page.evaluate(
    ([targets, leastPx, leastActPx]) =>
      [...document.querySelectorAll<HTMLElement>(targets)].flatMap((one) => {
        const isBoxInLabel = one instanceof HTMLInputElement && /^(radio|checkbox)$/.test(one.type);
        const isInSentence = one instanceof HTMLAnchorElement && getComputedStyle(one).display === "inline";
        if (isBoxInLabel || isInSentence || !one.checkVisibility({ visibilityProperty: true })) return [];
        // As laid out: what is pressed is drawn a little smaller.
        const height = one.offsetHeight;
        const least = one.classList.contains("act") ? leastActPx : leastPx;
        return height >= least - 0.5
          ? []
          : [`${one.tagName} .${one.className} "${one.textContent.trim().slice(0, 40)}": ${height} px`];
      }),
    [TARGETS, leastPx, leastActPx] as const,
  );

/** Sideways scrolling of the page or a sheet, and what reaches out of the window. */
export const sideways = (page: Page): Promise<Finding[]> =>
  page.evaluate(() => {
    const width = document.documentElement.clientWidth;
    const scrollers = [
      document.documentElement,
      document.body,
      ...document.querySelectorAll("dialog, main, .page, .alerts"),
    ];
    const scrolling = scrollers
      .filter((one) => one.scrollWidth > one.clientWidth + 1)
      .map((one) => `${one.tagName} scrolls sideways: ${one.scrollWidth} px in ${one.clientWidth}`);
    const isHidden = (one: Element): boolean =>
      one.closest(".visually-hidden, svg") !== null || !one.checkVisibility({ visibilityProperty: true });
    const outside = [...document.querySelectorAll("body *")]
      .filter((one) => !isHidden(one))
      .map((one) => ({ one, box: one.getBoundingClientRect() }))
      .filter(({ box }) => box.width > 0 && (box.right > width + 1 || box.left < -1))
      .map(({ one, box }) => `${one.tagName} .${one.className} reaches from ${box.left} to ${box.right}`);
    return [...scrolling, ...outside.slice(0, 5)];
  });

const NAMED_ROLES = new Set([
  "button",
  "link",
  "textbox",
  "combobox",
  "checkbox",
  "radio",
  "slider",
  "spinbutton",
  "dialog",
  "timer",
  "image",
]);

/** Controls, dialogs and pictures to which the browser's own accessibility tree gives no name. */
export async function nameless(page: Page): Promise<Finding[]> {
  const session = await page.context().newCDPSession(page);
  const { nodes } = await session.send("Accessibility.getFullAXTree");
  await session.detach();
  return nodes
    .filter(({ ignored, role }) => !ignored && NAMED_ROLES.has(String(role?.value)))
    .filter(({ name }) => String(name?.value ?? "").trim() === "")
    .map(({ role, properties }) => `a ${role?.value} without a name ${JSON.stringify(properties ?? [])}`);
}

/** Texts that their own box, or one that clips it, cuts off; and those that end in dots for want of room. */
export const clipped = (page: Page): Promise<Finding[]> =>
  page.evaluate(() => {
    const findings = new Set<string>();
    const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let text = texts.nextNode(); text !== null; text = texts.nextNode()) {
      const own = text.parentElement!;
      const words = text.textContent!.trim();
      if (words === "" || own.closest(".visually-hidden, svg, option, textarea") !== null) continue;
      if (!own.checkVisibility({ visibilityProperty: true })) continue;
      const range = document.createRange();
      range.selectNodeContents(text);
      const line = range.getBoundingClientRect();
      for (
        let box: HTMLElement | null = own;
        box !== null && box !== document.body;
        box = box.parentElement
      ) {
        const { overflowX, display } = getComputedStyle(box);
        if (display === "inline" || display === "contents") continue;
        const isButton = box.matches("button, a, label, summary, th, td, h1, h2, h3");
        if (overflowX !== "hidden" && overflowX !== "clip" && !isButton) continue;
        const edge = box.getBoundingClientRect();
        if (line.left < edge.left - 1 || line.right > edge.right + 1)
          findings.add(`"${words.slice(0, 60)}" is wider than ${box.tagName} .${box.className}`);
      }
    }
    return [...findings];
  });

/** What can be read on a page: its texts, and what controls are named or hint at. */
export const textsOn = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const found = new Set<string>();
    const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let text = texts.nextNode(); text !== null; text = texts.nextNode()) {
      if (text.parentElement!.checkVisibility({ visibilityProperty: true }))
        found.add(text.textContent!.trim());
    }
    for (const one of document.querySelectorAll("[aria-label], [title], [placeholder]"))
      for (const name of ["aria-label", "title", "placeholder"])
        found.add((one.getAttribute(name) ?? "").trim());
    return [...found].filter((text) => /\p{L}{2}/u.test(text));
  });

/** Another language, as another page of the same device would choose it. */
export async function chooseLanguage(page: Page, language: "en" | "es"): Promise<void> {
  await page.evaluate((newValue) => {
    const key = "traytide.language";
    localStorage.setItem(key, newValue);
    dispatchEvent(new StorageEvent("storage", { key, newValue }));
  }, language);
  await page.locator(`html[lang="${language}"]`).waitFor();
}
