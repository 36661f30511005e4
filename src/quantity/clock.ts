/** A moment of the steaming as a clock shows it: 1421 s as "23:41", 4821 s as "1:20:21"; before the start with a minus. */
export function clock(seconds: number): string {
  const whole = Math.round(Math.abs(seconds));
  const [h, m, s] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60, whole % 60];
  const two = (n: number) => String(n).padStart(2, "0");
  return `${seconds < 0 && whole > 0 ? "\u2212" : ""}${h > 0 ? `${h}:${two(m)}` : m}:${two(s)}`;
}
