import { clock } from "../quantity/clock.ts";
import { coldHoldWarnings } from "./cold-hold/cold-hold.ts";
import { type Pump, pumpWarnings, turnedUnwritten } from "./engine/pump.ts";
import type { Heat } from "./heat/heat.ts";
import type { Raising } from "./heat/raising.ts";
import { belowLowestWarnings } from "./plausibility/below-lowest.ts";
import { beyondGlassWarnings } from "./plausibility/beyond-glass.ts";
import { clockWarnings } from "./plausibility/clock.ts";
import { dialAndLoggerWarnings } from "./plausibility/dial-and-logger.ts";
import { drainedHotWarnings } from "./plausibility/drained-hot.ts";
import { heatCeilingWarnings } from "./plausibility/heat-ceiling.ts";
import { lapPaceWarnings } from "./plausibility/lap-pace.ts";
import { lapsMissedWarnings } from "./plausibility/laps-missed.ts";
import { lightingWarnings } from "./plausibility/lighting.ts";
import { loggedTemperatureWarnings } from "./plausibility/logged-temperature.ts";
import { moreLeftWarnings } from "./plausibility/more-left.ts";
import { outlyingPressureWarnings } from "./plausibility/outlying-pressure.ts";
import { raisedBelowWarnings } from "./plausibility/raised-below.ts";
import { rateBelowNoneWarnings } from "./plausibility/rate-below-none.ts";
import { risingLevelWarnings, toppingUpWarnings } from "./plausibility/rising-level.ts";
import { saturationWarnings } from "./plausibility/saturation.ts";
import { stuckDialWarnings } from "./plausibility/stuck-dial.ts";
import { stuckLoggerWarnings } from "./plausibility/stuck-logger.ts";
import { stuckRunningWarnings } from "./plausibility/stuck-running.ts";
import { thermometerLeftOutWarnings } from "./plausibility/thermometer-left-out.ts";
import { turnsPaceWarnings, turnsTooFewWarnings } from "./plausibility/turns-pace.ts";
import type { Warning } from "./report-schema.ts";
import type { SheetSources } from "./sources.ts";
import { heldCold } from "./state/held-cold.ts";
import { densityGPerMl } from "./water/feed-course.ts";
import { MEASURED_MORE, overfilledFrom } from "./water/overfilling.ts";
import { mostPumpedG, type Water } from "./water/water.ts";

interface Worked {
  sources: SheetSources;
  water: Water;
  phases: Parameters<typeof rateBelowNoneWarnings>[2];
  heat: Heat | null;
  raising: Raising | null;
  pump: Pump | null;
}

/** What in the log should be looked at again, and what was left out. */
export function warningsOf(worked: Worked): Warning[] {
  const { sources, water, phases, heat, pump, raising } = worked;
  const { timeline, fuel, around, pressure, locomotive } = sources;
  const warnings: Warning[] = [];
  const warn = (code: string, text: string, entries: readonly string[] = []) =>
    warnings.push({ code, text, entries: [...entries] });

  if (timeline.outOfOrder.length > 0) {
    warn(
      "out-of-order",
      "Entries stood in the log after later ones; they were put in order of their time.",
      timeline.outOfOrder,
    );
  }
  for (const kind of timeline.runningCounts) {
    warn(
      "running-count",
      `The counts of ${kind === "lap" ? "laps" : "revolutions"} go up like a running count, so each was taken as the number reached, not as more to add.${kind === "lap" && timeline.perhapsMore.length > 0 ? " Nothing else tells which they are, so the range of what was used a lap takes in both: write down when the regulator is opened and shut." : ""}`,
      timeline.of(kind).map((entry) => entry.id),
    );
  }
  if (around.assumed.length > 0)
    warn("assumed-conditions", `Not recorded, so taken as usual: ${around.assumed.join(", ")}.`);
  const [told] = timeline.of("fire");
  if (told?.state !== "lit" && timeline.of("fuel").length > 0 && fuel.fire.length > 0) {
    warn(
      "fire-not-recorded",
      told === undefined
        ? "Lighting and putting out the fire were not recorded; it is taken as lit throughout."
        : "When the fire was lit was not recorded; it is taken as lit from the first entry on.",
    );
  }
  if (fuel.leftUnread) {
    warn(
      "fuel-left-not-recorded",
      "What fuel was left was not recorded: what was burnt is thought of, from how such fires end and what heat came of it, and what is reckoned by it is as wide. Measure what is left.",
      timeline.of("fuel").map((entry) => entry.id),
    );
  }
  if (turnedUnwritten(sources)) {
    const most = Math.round(mostPumpedG(sources));
    warn(
      "pump-not-recorded",
      water.unseen === undefined
        ? `The engine has an axle pump, but neither its feed nor its by-pass was recorded; it is taken as not feeding. ${most > 0 ? `Had its by-pass been shut all the while she ran, it could have fed ${most} g, and so much more would have been drawn` : "What it fed, if anything, was drawn besides"}: write down when it is shut and opened.`
        : locomotive.cylinders === undefined
          ? `The engine has an axle pump, but neither its feed nor its by-pass was recorded, and the water fell by less than such a pump may feed. What was drawn is taken with anything from nothing to ${most} g of its feed: write down when its by-pass is shut and opened.`
          : `The water fell too little while she ran, or rose, though nothing was fed by the log: it seems that her axle pump fed, of which nothing was recorded. What was drawn is taken with anything from nothing to ${most} g of its feed: write down when its by-pass is shut and opened.`,
    );
  }
  const mostBarG = 1.1 * locomotive.workingPressureBarG;
  if (pressure.points.some(([, barG]) => barG > mostBarG) && !heldCold(sources.steaming, timeline)) {
    const ids = timeline
      .of("pressure")
      .filter((entry) => entry.barG > mostBarG)
      .map((entry) => entry.id);
    warn("above-working-pressure", "The pressure stood more than a tenth above working pressure.", ids);
  }
  const holdsMl = 1e6 * sources.geometry.totalM3;
  const tooMuch = timeline.of("fill").filter(({ ml }) => ml > MEASURED_MORE * holdsMl);
  if (tooMuch[0] !== undefined) {
    warn(
      "filled-beyond-boiler",
      `A filling of ${tooMuch[0].ml} ml is more than the ${Math.round(holdsMl)} ml that the boiler holds as it is described: a slip, or a measure of the boiler is wrong. Where the glass was read it is left out.`,
      tooMuch.map(({ id }) => id),
    );
  }
  for (const entry of timeline.of("fill")) {
    const order = timeline.entries.indexOf(entry);
    const grams = entry.ml * densityGPerMl(around.feedC, around);
    const before = overfilledFrom(sources, water.input.readings, { atS: entry.atS, order, grams });
    if (before === null) continue;
    const read = timeline.entries[before.order];
    warn(
      "filled-beyond-boiler",
      `The filling of ${entry.ml} ml at ${clock(entry.atS)} cannot have gone in on top of the ${Math.round(before.grams)} g that the glass showed at ${clock(before.atS)}, for the boiler holds ${Math.round(holdsMl)} ml as it is described: the glass is taken as read after the filling, which is left out.`,
      read?.kind === "level" && read.atS === before.atS ? [read.id, entry.id] : [entry.id],
    );
  }
  const stuck = [...stuckDialWarnings(sources), ...stuckLoggerWarnings(sources)];
  const risen = risingLevelWarnings(sources, water);
  const moreLeft = moreLeftWarnings(sources, water, risen);
  return [
    ...belowLowestWarnings(sources),
    ...warnings,
    ...lightingWarnings(sources),
    ...clockWarnings(sources),
    ...saturationWarnings(sources),
    ...loggedTemperatureWarnings(sources),
    ...thermometerLeftOutWarnings(sources),
    ...outlyingPressureWarnings(sources),
    ...stuck,
    ...stuckRunningWarnings(sources, stuck),
    ...dialAndLoggerWarnings(sources),
    ...beyondGlassWarnings(sources),
    ...drainedHotWarnings(sources),
    ...toppingUpWarnings(sources, water),
    ...risen,
    ...moreLeft,
    ...(risen.length + moreLeft.length > 0 ? [] : rateBelowNoneWarnings(sources, water, phases)),
    ...lapsMissedWarnings(sources),
    ...lapPaceWarnings(sources),
    ...turnsPaceWarnings(sources),
    ...turnsTooFewWarnings(sources),
    ...coldHoldWarnings(sources),
    ...heatCeilingWarnings(sources, heat),
    ...raisedBelowWarnings(sources, raising),
    ...pumpWarnings(pump),
  ];
}
