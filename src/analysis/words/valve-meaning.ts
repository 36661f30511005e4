import { type Reported, turned } from "../../quantity/reported.ts";
import type { Report } from "../report-schema.ts";

/** A safety valve may let the pressure go so far above working pressure, as a part of it (common practice of model codes). */
export const USUAL_VALVE_LIMIT = 0.1;

/** How a figure is put into words by who prints it; null where it is not to be had. */
export interface ValveWords {
  pressure: (figure: Reported) => string | null;
  perCent: (figure: Reported) => string | null;
}

/**
 * What the figures of the safety valve mean, in sentences; null where there is nothing to say. It never says that a valve
 * will do.
 * @param ownLimit what the owner's code allows above working pressure, as a part of it; the usual one where absent
 */
export function valveSentences(
  valve: Report["safetyValve"],
  workingBarG: number,
  words: ValveWords,
  ownLimit?: number,
): string | null {
  if (valve === null) return null;
  const said = [
    liftSentence(valve, workingBarG, words),
    riseSentence(valve, workingBarG, words, ownLimit),
  ].filter((sentence) => sentence !== null);
  return said.length === 0 ? null : said.join(" ");
}

type Valve = NonNullable<Report["safetyValve"]>;

/** What is compared by eye: the valve's pressures. */
export const pressuresOf = ({ lift, reseat, highest }: Valve): readonly Reported[] => [lift, reseat, highest];

/** How far the highest lay above working pressure; where that is less than none, how far below. */
export const riseSaid = ({ rise }: Valve): { name: string; figure: Reported } =>
  rise.value !== null && rise.value < -HALF_A_PER_CENT
    ? { name: "below working pressure", figure: turned(rise) }
    : { name: "above working pressure", figure: rise };

const HALF_A_PER_CENT = 0.005;
type Told = Extract<Reported, { u: number }> & { words: string };

/** A figure with its words; null where it is not to be had. */
function told(figure: Reported, wordsOf: (figure: Reported) => string | null): Told | null {
  const words = wordsOf(figure);
  return figure.value === null || words === null ? null : { ...figure, words };
}

const wholePerCent = (share: number): string => `${Math.round(100 * Math.abs(share))} %`;

/** Where it lies to working pressure; "about" where its range takes that in. */
function fromWorking({ value, lo95, hi95 }: Told, workingBarG: number): string {
  const above = value / workingBarG - 1;
  if ((lo95 <= workingBarG && hi95 >= workingBarG) || Math.round(100 * above) === 0)
    return "about working pressure";
  return `${wholePerCent(above)} ${above > 0 ? "above" : "below"} working pressure`;
}

function liftSentence(valve: Valve, workingBarG: number, { pressure }: ValveWords): string | null {
  const [lift, reseat] = [told(valve.lift, pressure), told(valve.reseat, pressure)];
  const said: string[] = [];
  if (lift !== null) said.push(`lifted at ${lift.words}, ${fromWorking(lift, workingBarG)}`);
  if (reseat !== null) {
    const below = lift === null || reseat.value >= lift.value ? null : reseat.value / lift.value - 1;
    said.push(
      `reseated at ${reseat.words}${below === null ? "" : `, ${wholePerCent(below)} below its lift`}`,
    );
  }
  return said.length === 0 ? null : `The valve ${said.join(", and ")}.`;
}

function riseSentence(
  valve: Valve,
  workingBarG: number,
  words: ValveWords,
  ownLimit?: number,
): string | null {
  const [highest, rise] = [told(valve.highest, words.pressure), told(valve.rise, words.perCent)];
  if (highest === null) return null;
  const went = `By the readings the pressure came to ${highest.words} at its highest`;
  const unmoved = valve.lift.value === null && valve.reseat.value === null;
  if (unmoved && (rise === null ? highest.value < workingBarG : rise.lo95 <= 0)) {
    const where = rise === null || rise.hi95 < 0 ? "short of" : "about";
    return `${went}, ${where} working pressure, and no lift was seen: that was no trial of the valve.`;
  }
  if (rise === null) return null;
  if (rise.hi95 < 0) return `${went}, short of working pressure.`;
  const limit = ownLimit ?? USUAL_VALVE_LIMIT;
  const allowed = `the ${Number((100 * limit).toFixed(1))} % ${
    ownLimit === undefined ? "that model codes commonly allow" : "that you entered from your code"
  }`;
  const held =
    rise.hi95 <= limit
      ? `under ${allowed}`
      : rise.lo95 > limit
        ? `beyond ${allowed}`
        : `not told apart from ${allowed}`;
  const above = rise.lo95 <= 0 ? "about working pressure" : `${rise.words} above working pressure`;
  return `${went}, ${above}, ${held}${unmoved ? ", and no lift was seen" : ""}; your club's code decides.`;
}
