import type { Entry } from "../../logbook/entry.ts";
import { glassEndsMm, glassReading } from "../../logbook/glass-reading.ts";
import type { Locomotive } from "../../logbook/locomotive.ts";

/** Standard uncertainties of the instruments: the engine's own where given, else common practice. */
export interface ReadingErrors {
  /** one reading of the dial, to a fifth of a 0.5 bar division */
  pressureReadingBar: number;
  /** what all readings of the dial share: a 3-5 % dial of twice the working pressure */
  pressureBiasBar: number;
  /** one reading of the glass */
  levelReadingMm: number;
  /** the scale of the feed measure, shared by all feeds */
  feedRelative: number;
  massReadingG: number;
  volumeReadingMl: number;
}

export function readingErrors(locomotive: Locomotive): ReadingErrors {
  const own = locomotive.instruments ?? {};
  return {
    pressureReadingBar: own.pressureReadingBar ?? 0.1,
    pressureBiasBar: own.pressureBiasBar ?? 0.04 * locomotive.workingPressureBarG,
    levelReadingMm: own.levelReadingMm ?? 1,
    feedRelative: own.feedRelative ?? 0.02,
    massReadingG: own.massReadingG ?? 1,
    volumeReadingMl: own.volumeReadingMl ?? 1,
  };
}

/**
 * A level put to the nearest quarter is evenly anywhere within an eighth of the glass either way: 1/8 over root 3. The
 * eye misjudges by about a twentieth where a quarter lies (our estimate).
 */
const QUARTER_OF_GLASS = Math.hypot(0.125 / Math.sqrt(3), 0.05);

/** Standard uncertainty of one reading of the glass, mm: larger where its note says that it was read in quarters. */
export function levelErrorMm(
  entry: Pick<Entry, "note">,
  { boiler }: Locomotive,
  errors: ReadingErrors,
): number {
  if (glassReading(entry) === "exact") return errors.levelReadingMm;
  const [bottomMm, topMm] = glassEndsMm(boiler);
  return Math.hypot(errors.levelReadingMm, QUARTER_OF_GLASS * (topMm - bottomMm));
}

/** Names of the errors that all figures of one engine share, so that a difference of two runs cancels them. */
export const sharedSource = {
  feedScale: (locomotive: Locomotive) => `feed scale of ${locomotive.id}`,
  handPump: (locomotive: Locomotive) => `hand pump of ${locomotive.id}`,
  dial: (locomotive: Locomotive) => `dial of ${locomotive.id}`,
  boilerVolume: (locomotive: Locomotive) => `boiler volume of ${locomotive.id}`,
  heatingValue: (locomotive: Locomotive) => `heating value of ${locomotive.fuel.kind}`,
};
