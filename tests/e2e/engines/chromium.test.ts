import { engineStories } from "./stories.ts";

engineStories("chromium");
