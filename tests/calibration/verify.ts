import { calibrate, seedsFrom } from "./calibrate.ts";
import { calibrateColdHolds } from "./calibrate-cold-hold.ts";
import { calibrateLoggers } from "./calibrate-loggers.ts";
import { printCare } from "./care-verify.ts";
import { printForecast } from "./forecast-futures.ts";
import { missedWants, WANTS_IN_WORDS } from "./row-wants.ts";
import { printSizing } from "./sizing-report.ts";

/** Prints how the intervals of the report keep their promise on simulated steamings: `npm run verify [-- N]`. */
const count = Number(process.argv[2] ?? 600);
/** far from the seeds that the method was built on */
const FIRST_SEED = 20_001;
const steamings = calibrate(seedsFrom(FIRST_SEED, count), (done) => {
  if (done % 50 === 0) process.stderr.write(`${done} of ${count} steamings\n`);
});
const loggers = calibrateLoggers(FIRST_SEED, { any: Math.ceil(count / 4), leaking: Math.ceil(count / 8) });
const rows = [...steamings, ...calibrateColdHolds(seedsFrom(FIRST_SEED, count)), ...loggers];
const NAME = 36;
const pad = (text: string, width: number) => text.padStart(width);
console.log(`${count} simulated steamings of invented engines, every truth known.
held: truth within the 95 % interval; miss: (figure - truth)/u, with its mean and spread (0 and 1 where u is just);
u/truth: median; width: mean of u against that of least squares told the true size of the demand's wander;
refused: not to be had though there was a truth. Raising power is judged to the true moment of working pressure,
and where that was not met before steam was used over the report's own window.
${WANTS_IN_WORDS}
`);
console.log(
  [
    "figure".padEnd(NAME),
    pad("given", 6),
    pad("refused", 8),
    pad("held %", 8),
    pad("mean miss", 10),
    pad("spread", 8),
    pad("u/truth %", 10),
    pad("width", 7),
    pad("worst", 14),
  ].join(""),
);
for (const row of rows) {
  const missed = missedWants(row);
  console.log(
    [
      row.name.padEnd(NAME),
      pad(String(row.given), 6),
      pad(String(row.refused), 8),
      pad(((100 * row.held) / row.given).toFixed(1), 8),
      pad(row.meanMiss.toFixed(2), 10),
      pad(row.spread.toFixed(2), 8),
      pad((100 * row.relativeU).toFixed(1), 10),
      pad(row.widthRatio === null ? "" : row.widthRatio.toFixed(2), 7),
      pad(`${row.worst.miss.toFixed(1)} (${row.worst.run})`, 14),
      missed.length === 0 ? "  met" : `  MISSED by ${missed.join(" and ")}`,
    ].join(""),
  );
}

const missed = [
  ...rows.filter((row) => missedWants(row).length > 0),
  ...printForecast(seedsFrom(FIRST_SEED, Math.ceil(count / 2))),
  ...printCare(count, Math.ceil(count / 15)),
  ...printSizing(FIRST_SEED, Math.max(1000, count), Math.max(200, Math.ceil(count / 3))),
];
if (missed.length > 0) {
  console.log(`\nMISSED: ${missed.map(({ name }) => name).join("; ")}`);
  process.exitCode = 1;
}
