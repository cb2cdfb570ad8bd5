// Starts the forecasts' thread from its source: a thread has no compiler of its own. What is built needs none.
import { register } from "tsx/esm/api";

register();
await import("./forecast-worker.ts");
