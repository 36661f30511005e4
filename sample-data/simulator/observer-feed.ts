import type { Entry } from "../../src/logbook/entry.ts";
import { reading } from "./readings.ts";
import type { Watch } from "./watch.ts";

/** A tank fed from by an axle pump is measured about this often while the by-pass is shut. */
const TANK_EVERY_S = 300;

/**
 * Feeds as written: bottle and strokes when done; the axle pump by what the water tank lost, each time the
 * by-pass is opened and every few minutes while it is shut, by those who measure it at all.
 */
export function feedEntries(watch: Watch): Entry[] {
  const entries: Entry[] = [];
  for (const happening of watch.ledger.happenings) {
    if (happening.kind !== "feed") continue;
    const { by, ml, strokes } = happening;
    entries.push({
      kind: "feed",
      atS: watch.stamp(happening.atS + 1, "feed"),
      ml: Number(ml.toFixed(2)),
      by,
      ...(strokes === null ? {} : { strokes }),
    });
  }
  return watch.habits.writesPumpFeed ? [...entries, ...pumpEntries(watch)] : entries;
}

function pumpEntries(watch: Watch): Entry[] {
  const { ledger, day, plan } = watch;
  const { volumeReadingMl, volumeDivisionMl } = plan.instruments;
  const { kgPerM3 } = day.feedWater;
  const entries: Entry[] = [];
  let fromS: number | null = null;

  const measured = (toS: number) => {
    if (fromS === null) return;
    const trueMl = (watch.at("pumpedG", toS) - watch.at("pumpedG", fromS)) / (kgPerM3 / 1000);
    fromS = toS;
    if (trueMl < volumeReadingMl) return;
    const ml = reading(trueMl / (1 + day.faults.feedScale), volumeReadingMl, volumeDivisionMl, watch.random);
    entries.push({ kind: "feed", atS: watch.stamp(toS, "feed"), ml: Math.max(0, ml), by: "axle-pump" });
  };
  const every = (toS: number) => {
    while (fromS !== null && fromS + TANK_EVERY_S * 1.4 < toS) {
      measured(fromS + TANK_EVERY_S * watch.random.between(0.7, 1.3));
    }
  };

  for (const happening of ledger.happenings) {
    if (happening.kind !== "bypass") continue;
    if (happening.state === "shut") fromS = happening.atS;
    else {
      every(happening.atS);
      measured(happening.atS);
      fromS = null;
    }
  }
  every(ledger.endS);
  measured(ledger.endS);
  return entries;
}
