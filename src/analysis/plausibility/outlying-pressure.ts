import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";

/** So far from both its neighbours, in working pressures, and so many reading errors, a reading stands alone. */
const FAR = { ofWorking: 0.4, errors: 8 };
/** Neighbours that are this near in time tell. */
const NEAR_S = 150;
/** No boiler with a working safety valve goes beyond this, in working pressures. */
const NEVER = 1.6;

/** A reading of the dial that its neighbours do not bear out: 4.1, 42, 4.2. */
export function outlyingPressureWarnings(
  from: Pick<Sources, "timeline" | "errors" | "locomotive">,
): Warning[] {
  const { timeline, errors, locomotive } = from;
  const readings = timeline.of("pressure");
  const working = locomotive.workingPressureBarG;
  const far = Math.max(FAR.ofWorking * working, FAR.errors * errors.pressureReadingBar);
  return readings.flatMap((reading, i): Warning[] => {
    const [before, after] = [readings[i - 1], readings[i + 1]];
    if (Math.abs(reading.barG - (before ?? after ?? reading).barG) <= far) return [];
    const beside = [before, after].filter((other) => other !== undefined);
    const off = beside.map((other) => reading.barG - other.barG);
    const alone = off.every((value) => value > far) || off.every((value) => value < -far);
    if (!alone) return [];
    const soon = beside.length === 2 && beside.every((other) => Math.abs(other.atS - reading.atS) <= NEAR_S);
    const mean = beside.reduce((sum, other) => sum + other.barG, 0) / beside.length;
    const times = reading.barG / mean;
    const slipped = Math.abs(times - 10) < 2.5 || Math.abs(times - 0.1) < 0.025;
    // cold feed and a long pull take a pressure down and let it up again; nothing takes it up and lets it down so soon
    const up = off.every((value) => value > 0);
    const beyond = up && reading.barG > NEVER * working;
    // the last one has no neighbour after it: a tenth of the one before is asked about while nobody lets the steam off
    const tenth =
      slipped &&
      !up &&
      after === undefined &&
      before !== undefined &&
      before.barG <= NEVER * working &&
      stillUp(timeline, before.atS, reading.atS);
    if (!(beyond || tenth || (soon && (up || slipped)))) return [];
    return [
      {
        code: "reading-outlying",
        text: `The pressure at ${Math.round(reading.atS)} s, ${reading.barG} bar, lies far from the readings beside it (${beside.map((other) => other.barG).join(" and ")} bar).${
          slipped ? " Has the decimal point slipped?" : ""
        }`,
        entries: [reading.id],
      },
    ];
  });
}

function stillUp(timeline: Sources["timeline"], beforeS: number, atS: number): boolean {
  const fire = timeline.of("fire").findLast((entry) => entry.atS <= atS);
  const letOff = [...timeline.of("blowdown"), ...timeline.of("drained")].some(
    (entry) => entry.atS >= beforeS,
  );
  return atS - beforeS <= NEAR_S && fire?.state !== "out" && !letOff;
}
