/** One promise of a calibration: what came of it, and between what it must lie. */
export interface Threshold {
  name: string;
  value: number;
  /** both ends are permitted, the upper one not where it is `below` */
  least: number;
  most: number;
  below?: true;
  unit: string;
  /** how many cases stand behind it, and its binomial or clustered standard error in the same unit */
  of: number;
  standardError?: number;
}

export const isMet = ({ value, least, most, below }: Threshold): boolean =>
  value >= least && (below === true ? value < most : value <= most);

/** A line of the table that `npm run verify` prints, ending in the words met or MISSED. */
export function thresholdLine(threshold: Threshold, nameWidth = 58): string {
  const { name, value, least, most, below, unit, of, standardError } = threshold;
  const error = standardError === undefined ? "" : ` +/- ${standardError.toFixed(1)}`;
  return [
    name.padEnd(nameWidth),
    `${value.toFixed(1).padStart(6)}${error} ${unit} of ${of}`.padEnd(26),
    `wanted ${below === true ? `below ${most}` : `${least} to ${most}`}`.padEnd(18),
    isMet(threshold) ? "met" : "MISSED",
  ].join(" ");
}

/** Standard error of a share of so many independent cases, in per cent. */
export const binomialError = (share: number, of: number): number =>
  100 * Math.sqrt((share * (1 - share)) / of);
