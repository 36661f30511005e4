import { calibrate, seedsFrom } from "./calibrate.ts";

/** Prints how the intervals of the report keep their promise on simulated steamings: `npm run verify [-- N]`. */
const count = Number(process.argv[2] ?? 600);
const rows = calibrate(seedsFrom(1, count), (done) => {
  if (done % 50 === 0) process.stderr.write(`${done} of ${count} steamings\n`);
});
const pad = (text: string, width: number) => text.padStart(width);
console.log(`${count} simulated steamings. Held: truth within the 95 % interval. Miss: (figure - truth)/u.`);
console.log(
  [
    "figure".padEnd(26),
    pad("given", 6),
    pad("refused", 8),
    pad("held %", 8),
    pad("mean miss", 10),
    pad("spread", 8),
    pad("u/truth %", 10),
    pad("worst", 12),
  ].join(""),
);
for (const row of rows) {
  console.log(
    [
      row.name.padEnd(26),
      pad(String(row.given), 6),
      pad(String(row.refused), 8),
      pad(((100 * row.held) / row.given).toFixed(1), 8),
      pad(row.meanMiss.toFixed(2), 10),
      pad(row.spread.toFixed(2), 8),
      pad((100 * row.relativeU).toFixed(1), 10),
      pad(`${row.worst.miss.toFixed(1)} (${row.worst.run})`, 12),
    ].join(""),
  );
}
