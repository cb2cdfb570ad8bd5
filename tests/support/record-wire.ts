import { changedSchemas, recordWire, wireNow, wireRecorded } from "./wire-record.ts";

/** `npm run record-wire`: once PROTOCOL_VERSION was raised. `-- --unreleased` while no kitchen runs this version yet. */
const [before, now] = [wireRecorded(), wireNow()];
const changed = changedSchemas(before, now);
if (changed.length > 0 && before.protocol === now.protocol && !process.argv.includes("--unreleased")) {
  console.error(
    `${changed.join(", ")} changed since protocol ${before.protocol} was recorded. Raise PROTOCOL_VERSION in shared/protocol/version.ts ` +
      "first, so that pages of before reload themselves. Where no kitchen runs this version yet: npm run record-wire -- --unreleased",
  );
  process.exitCode = 1;
} else {
  recordWire();
  console.log(`Recorded protocol ${now.protocol}: its schemas, and a golden log with every kind of event.`);
}
