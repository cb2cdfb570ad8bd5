import { later } from "./later.tsx";

/** What the first screen and a tray's show once it has been loaded: what their acts can do without. */
export const BeforeClosing = later(
  async () => (await import("#phone/plan/before-closing.tsx")).BeforeClosing,
  "part",
);
export const CannotSave = later(async () => (await import("./server-trouble.tsx")).CannotSave, "part");
export const Find = later(async () => (await import("#phone/find/find.tsx")).Find, "part");
export const MoveSheet = later(async () => (await import("#phone/trays/move-sheet.tsx")).MoveSheet, "sheet");
export const OldIcing = later(async () => (await import("#phone/trays/old-icing.tsx")).OldIcing, "part");
export const PackSheet = later(async () => (await import("#phone/trays/pack-sheet.tsx")).PackSheet, "sheet");
export const ProblemSheet = later(
  async () => (await import("#phone/trays/problem-sheet.tsx")).ProblemSheet,
  "sheet",
);
export const ProblemBar = later(async () => (await import("./server-trouble.tsx")).ProblemBar, "part");
export const QuestionSheet = later(
  async () => (await import("#phone/ui/question.tsx")).QuestionSheet,
  "sheet",
);
export const Refusals = later(async () => (await import("#phone/alerts/refusals.tsx")).Refusals, "part");
export const StoryCard = later(async () => (await import("#phone/story/story-card.tsx")).StoryCard, "part");
export const TrayMore = later(async () => (await import("#phone/trays/tray-more.tsx")).TrayMore, "part");
export const TrayWrong = later(async () => (await import("#phone/trays/tray-batches.tsx")).TrayWrong, "part");
