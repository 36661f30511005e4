export { clock as clockOf } from "../../src/quantity/clock.ts";

/** A span in words for a sentence: "52 s", "26 min", "1 h 40 min". */
export function spanInWords(seconds: number): string {
  if (seconds < 120) return `${Math.round(seconds)} s`;
  const minutes = Math.round(seconds / 60);
  if (minutes < 90) return `${minutes} min`;
  return minutes % 60 === 0
    ? `${minutes / 60} h`
    : `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, "0")} min`;
}

/** "12:30", "1:02:03" or minutes alone ("12.5") as seconds; null where it is none of these. */
export function typedTime(text: string): number | null {
  const tidy = text
    .trim()
    .replace(/\u2212/g, "-")
    .replace(",", ".");
  const sign = tidy.startsWith("-") ? -1 : 1;
  const bare = tidy.replace(/^[+-]/, "");
  if (/^\d+(\.\d+)?$/.test(bare)) return sign * Math.round(Number(bare) * 60);
  const parts = /^(?:(\d+):)?(\d+):([0-5]?\d(?:\.\d+)?)$/.exec(bare);
  if (parts === null) return null;
  const [, hours = "0", minutes = "0", seconds = "0"] = parts;
  return sign * (Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds));
}

const months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/** The moment at the place where it was written down: its own date and clock, whatever zone the reader is in. */
function localFields(moment: string): Date {
  return new Date(
    `${moment
      .slice(0, 19)
      .replace(" ", "T")
      .replace(/(T\d\d:\d\d)(Z|[+-].*)$/, "$1")}Z`,
  );
}

/** "14 Mar 2026" */
export function dateInWords(moment: string): string {
  const at = localFields(moment);
  return `${at.getUTCDate()} ${months[at.getUTCMonth()] ?? ""} ${at.getUTCFullYear()}`;
}

/** "10:14", or so many seconds after it. */
export function clockTime(moment: string, laterS = 0, withSeconds = false): string {
  const at = new Date(localFields(moment).getTime() + laterS * 1000);
  return at.toISOString().slice(11, withSeconds ? 19 : 16);
}
