import { footplate } from "../../preferences/footplate.ts";

let audio: AudioContext | null = null;

/** Browsers complain of sound and buzz on a page that nobody has touched yet. */
export const touched = (): boolean => navigator.userActivation?.hasBeenActive ?? true;

/** A short tone; a browser gives none before the first tap. */
function tone(hertz: number, seconds: number, loud: number, afterS = 0): void {
  if (!touched()) return;
  try {
    audio ??= new AudioContext();
    if (audio.state === "suspended") void audio.resume();
    const start = audio.currentTime + afterS;
    const [source, level] = [audio.createOscillator(), audio.createGain()];
    source.frequency.value = hertz;
    level.gain.setValueAtTime(loud, start);
    level.gain.exponentialRampToValueAtTime(0.001, start + seconds);
    source.connect(level).connect(audio.destination);
    source.start(start);
    source.stop(start + seconds);
  } catch {
    // a machine without sound still shows and writes everything
  }
}

export function tickSound(): void {
  if (footplate.value.tick) tone(1800, 0.04, 0.2);
}

export function dueSound(): void {
  if (footplate.value.sound) tone(880, 0.18, 0.25);
}

export function alarmSound(): void {
  if (footplate.value.sound)
    for (const afterS of [0, 0.3, 0.6]) tone(afterS === 0.3 ? 990 : 660, 0.25, 0.5, afterS);
}

export function buzz(pattern: number | number[]): void {
  if (footplate.value.buzz && touched() && "vibrate" in navigator) navigator.vibrate(pattern);
}
