/** A steaming that began so long ago is not looked at, h (our choice). */
const LONGEST_H = 14;
/** Without an entry for so long, nobody is steaming, min (our choice). */
const QUIET_MIN = 30;

export const begunLately = (startedAt: string, nowMs: number): boolean =>
  Math.abs(nowMs - Date.parse(startedAt)) < LONGEST_H * 3_600_000;

/**
 * Whether somebody is steaming: it was begun, or something was written down, not long ago.
 * @param lastS of its latest entry, seconds since its start; 0 where there is none
 */
export const isInSteam = (startedAt: string, lastS: number, nowMs: number): boolean =>
  nowMs - Date.parse(startedAt) - 1000 * Math.max(0, lastS) < QUIET_MIN * 60_000;
