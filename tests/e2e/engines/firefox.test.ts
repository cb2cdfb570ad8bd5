import { engineStories } from "./stories.ts";

engineStories("firefox");
