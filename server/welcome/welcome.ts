import { likelyUse } from "./likely.ts";

const nav = document.querySelector("nav");

/** Puts this machine's likely answer first, where the eye and the first press of Tab go. */
function putFirst(isKitchenSetUp: boolean): void {
  const likely = likelyUse({
    widthPx: window.innerWidth,
    isTouched: window.matchMedia("(pointer: coarse)").matches,
    wasWall: localStorage.getItem("traytide.wall") !== null,
    wasPhone: localStorage.getItem("traytide.session") !== null,
    isKitchenSetUp,
  });
  for (const link of nav?.querySelectorAll("a") ?? []) {
    const isLikely = link.dataset["is"] === likely;
    link.classList.toggle("main", isLikely);
    if (isLikely) nav?.prepend(link);
  }
}

putFirst(true);
/** Shows whose kitchen it is, once it is set up. */
void fetch("/api/health").then(async (response) => {
  const { kitchen } = (await response.json()) as { kitchen?: string };
  document.querySelector(".kitchen")?.replaceChildren(kitchen ?? document.title);
  putFirst(kitchen !== undefined);
});
