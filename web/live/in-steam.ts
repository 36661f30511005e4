/** A steaming that began so long ago is not looked at, h. */
const LONGEST_H = 14;
/** Without an entry for so long, nobody is steaming, min. */
const QUIET_MIN = 30;

export const begunLately = (startedAt: string, nowMs: number): boolean =>
  Math.abs(nowMs - Date.parse(startedAt)) < LONGEST_H * 3_600_000;

/** Whether somebody is steaming: it was begun, or something was written down, not long ago. */
export const isInSteam = (startedAt: string, entries: readonly { atS: number }[], nowMs: number): boolean =>
  nowMs - Date.parse(startedAt) - 1000 * Math.max(0, ...entries.map(({ atS }) => atS)) < QUIET_MIN * 60_000;
