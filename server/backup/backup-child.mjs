// Starts the backup's process from its source: what is built needs no compiler.
import { register } from "tsx/esm/api";

register();
await import("./backup-child.ts");
