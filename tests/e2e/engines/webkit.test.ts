import { engineStories } from "./stories.ts";

engineStories("webkit");
