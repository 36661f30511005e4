import { writeFileSync } from "node:fs";
import { demonstration } from "./demonstration/demonstration.ts";
import { example } from "./demonstration/example.ts";
import { printedLogbook, printedTruth } from "./demonstration/printed.ts";

// Writes the demonstration and the example beside this file. All in them is invented: engines, railway and
// steamings were made by the simulator, whose truth is kept apart for comparison.
const here = (name: string) => new URL(name, import.meta.url);
const made = demonstration();
writeFileSync(here("demonstration.logbook.json"), printedLogbook(made.logbook));
writeFileSync(here("demonstration.truth.json"), printedTruth(made));
writeFileSync(here("example.logbook.json"), printedLogbook(example()));
console.log(`${made.logbook.steamings.length} invented steamings written.`);
