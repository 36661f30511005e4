import { cutAt } from "../../quantity/cut-at.ts";
import { meanWithin } from "../../quantity/mean-within.ts";
import {
  absent,
  type Figure,
  interval,
  isMeasured,
  type Measured,
  measured,
  measuredWithShared,
  scaled,
  standardUncertainty,
  sum,
} from "../../quantity/measured.ts";
import { quotient } from "../../quantity/product-and-quotient.ts";
import { WHEN_SHE_RAN_UNKNOWN } from "../laps/way.ts";
import { ratio } from "../ratio.ts";
import type { Warning } from "../report-schema.ts";
import type { SheetSources } from "../sources.ts";
import { common, lengthS, type Stretch, underWayStretches } from "../state/phases.ts";
import { pumpingStretches } from "../water/demand-effects.ts";
import { densityGPerMl } from "../water/feed-course.ts";
import { STROKE_NOT_KNOWN, strokesUnmeasured } from "../water/held-cold-water.ts";
import { pumpUnwritten } from "../water/unseen-pump.ts";
import { axlePumpSweptMl, drawnWithin, feedTotal, type Water } from "../water/water.ts";

export interface Pump {
  perRevolution: Figure;
  volumetricEfficiency: Figure;
  /** with the by-pass shut it gives more than the running engine draws; null where the two are not told apart */
  keepsUp: boolean | null;
  /** why that is not told though the delivery is; null where it is told, or the delivery is not */
  keepsUpUntold: string | null;
  /** what it gives with the by-pass shut over what she draws, both under way; null where that is not to be had */
  timesDrawn: Measured | null;
}

/** Whether the wheels turned of an engine with an axle pump of which nothing was written. */
export const turnedUnwritten = (from: SheetSources): boolean =>
  pumpUnwritten(from) &&
  (underWayStretches(from.timeline, from.phases).length > 0 ||
    [...from.timeline.of("lap"), ...from.timeline.of("revolutions")].some(({ count }) => count > 0));

/** What was fed in all, g; not what such a pump is not known to have left at nothing. */
export const fedInAll = (from: SheetSources, water: Water): Figure =>
  strokesUnmeasured(from)
    ? absent(STROKE_NOT_KNOWN)
    : water.unseen === undefined && turnedUnwritten(from)
      ? absent(
          "whether the axle pump fed was not written: write down when its by-pass is shut and opened, or what its tank lost",
        )
      : feedTotal(water);

/** What went in, and the time under way with the by-pass shut in which it did. */
interface Delivered {
  grams: Figure;
  within: readonly Stretch[];
}

/**
 * Of the steam she draws so much less for each gram that is fed, at the mean of some minutes with the by-pass shut: to bring cold
 * water to the boil takes about a quarter of what evaporates as much, and of that about a quarter is missing behind the
 * regulator, as the pressure falls; the rest comes out of what is stored, for a boiler takes some eight minutes to fall into step (our
 * estimates). It may be none or several times that: the balance allows for what it is in doubt by.
 */
const LESS_DRAWN = 0.25 * 0.25;

/** The readings must tell an unmeasured delivery at least as well as what is known of such pumps beforehand. */
const TOLD = Math.SQRT1_2;

/** No pump delivers more than its ram sweeps, which is known as well as ram and stroke were measured (our estimate). */
const MOST_OF_SWEPT = 1.1;

/** Delivery of the axle pump; null for an engine without one, or where neither its feed nor a shut by-pass was written. */
export function pumpOf(from: SheetSources, water: Water): Pump | null {
  const { timeline, locomotive } = from;
  const pump = locomotive.axlePump;
  const fed = timeline.of("feed").some((entry) => entry.by === "axle-pump");
  if (pump === undefined || (!fed && !timeline.of("bypass").some(({ state }) => state === "shut")))
    return null;
  const shut = pumpingStretches(timeline, from.phases);
  if (shut === null) return none("the by-pass was not recorded, so it is not known when the pump fed");
  if (shut.length === 0)
    return none(
      from.phases.some((phase) => phase.name === "running")
        ? "the by-pass was never shut while she ran"
        : WHEN_SHE_RAN_UNKNOWN,
    );
  const { grams, within } = fed ? measuredDelivery(from, water, shut) : fromTheLevel(water, shut);
  if (!isMeasured(grams)) return none(grams.why);
  const perRevolution = ratio(
    scaled(grams, 1 / densityGPerMl(from.around.feedC, from.around), "ml"),
    from.way.turnsIn(within),
    "ml/rev",
  );
  const sweptMl = axlePumpSweptMl(pump);
  // what a tank lost is told too well for the ends to matter to its mean
  const between = fed ? cutAt : meanWithin;
  const inMl: Figure = isMeasured(perRevolution)
    ? between({ ...perRevolution, unit: "ml" }, 0, MOST_OF_SWEPT * sweptMl)
    : perRevolution;
  return {
    perRevolution: inMl,
    volumetricEfficiency: isMeasured(inMl) ? scaled(inMl, 1 / sweptMl, "1") : inMl,
    ...keepsUp(from, water, grams, within),
  };
}

const none = (why: string): Pump => ({
  perRevolution: absent(why),
  volumetricEfficiency: absent(why),
  keepsUp: null,
  keepsUpUntold: null,
  timesDrawn: null,
});

/** What the tank was found to have lost, up to the last time it was looked at. */
function measuredDelivery(from: SheetSources, water: Water, shut: readonly Stretch[]): Delivered {
  // of all that moves water only an axle pump takes its time
  const moves = water.input.moves.filter((move) => move.over !== null);
  const lastS = Math.max(...moves.map((move) => move.atS));
  const within = common(shut, [[Number.NEGATIVE_INFINITY, lastS]]);
  if (within.length === 0)
    return {
      grams: absent(
        "no feed of the axle pump falls in the time with its by-pass shut: measure its tank each time the by-pass is opened",
      ),
      within,
    };
  const uEach = from.errors.volumeReadingMl * densityGPerMl(from.around.feedC, from.around);
  const fed = moves.map(({ grams, scaleRelative, sourceName, source }) =>
    sum(
      measuredWithShared(grams, scaleRelative * grams, "g", sourceName, source),
      measured(0, uEach, "g", "each measure of feed"),
    ),
  );
  const grams = fed.reduce(sum);
  const turned = measured(0, turning(grams.value, within), "g", "when the by-pass was turned");
  return { within, grams: sum(grams, turned) };
}

/** The by-pass is written down within about so many seconds of being turned. */
const TURNED_S = 2;
const turning = (grams: number, within: readonly Stretch[]): number =>
  (grams * TURNED_S * Math.sqrt(2 * within.length)) / lengthS(within);

/**
 * From the trend of the level with the by-pass shut against open: the balance's answer less what it knew beforehand of
 * such pumps (information adds: 1/u^2 = 1/u_prior^2 + 1/u_readings^2), so that the figure owes nothing to the usual; and less
 * what the level keeps because she draws less while she is fed.
 */
function fromTheLevel(water: Water, within: readonly Stretch[]): Delivered {
  const { gPerS, uGPerS } = water.input.pumpPrior;
  const found = water.balance?.estimate({ unit: "g", pumpRate: 1 }) ?? null;
  if (found === null) return { within, grams: absent(water.why) };
  const u = standardUncertainty(found);
  if (!(u < TOLD * uGPerS))
    return {
      within,
      grams: absent(
        "its feed was not measured, and the readings of water do not tell it from what the engine drew: measure what its tank lost",
      ),
    };
  const uReadings = 1 / Math.sqrt(1 / u ** 2 - 1 / uGPerS ** 2);
  const kept = (found.value / u ** 2 - gPerS / uGPerS ** 2) * uReadings ** 2;
  const seconds = lengthS(within);
  return {
    within,
    grams: measured((kept * seconds) / (1 + LESS_DRAWN), uReadings * seconds, "g", "readings of water"),
  };
}

/** Delivery a second with the by-pass shut against what is drawn a second, both under way. */
function keepsUp(
  from: SheetSources,
  water: Water,
  grams: Measured,
  within: readonly Stretch[],
): Pick<Pump, "keepsUp" | "keepsUpUntold" | "timesDrawn"> {
  const running = from.phases.flatMap(({ name, fromS, toS }): Stretch[] =>
    name === "running" ? [[fromS, toS]] : [],
  );
  const untold = (why: string) => ({ keepsUp: null, keepsUpUntold: why, timesDrawn: null });
  const drawn = drawnWithin(water, running);
  if (!isMeasured(drawn)) return untold(drawn.why);
  if (!(drawn.value > 0)) return untold("by the readings of water nothing was drawn while she ran");
  const underWayS = lengthS(underWayStretches(from.timeline, from.phases));
  const timesDrawn = quotient(scaled(grams, underWayS / lengthS(within), "g"), drawn, "1");
  const [low, high] = interval(timesDrawn);
  if (low > 1 || high < 1) return { keepsUp: low > 1, keepsUpUntold: null, timesDrawn };
  const why = `by the readings it gives ${Math.max(0, low).toFixed(1)} to ${high.toFixed(1)} times what she draws`;
  return { ...untold(why), timesDrawn };
}

/** Of a pump whose delivery is told, why it is not told whether it keeps up. */
export const pumpWarnings = (pump: Pump | null): Warning[] =>
  pump === null || pump.keepsUpUntold === null
    ? []
    : [
        {
          code: "pump-keeps-up-untold",
          text: `Whether the axle pump keeps up is not told: ${pump.keepsUpUntold}.`,
          entries: [],
        },
      ];
