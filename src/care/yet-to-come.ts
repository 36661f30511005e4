import type { Service } from "../logbook/service.ts";

/** A day written without its hour, or a clock that is off, is no day to come (our choice). */
const HALF_A_DAY_MS = 12 * 3_600_000;

/** Dated later than now. */
export const isAhead = ({ at }: Service, nowMs: number): boolean => Date.parse(at) > nowMs + HALF_A_DAY_MS;

/**
 * Dated later than now and than all that is logged: a slip of the pen, or not yet done. Nothing starts afresh by it. A
 * clock that runs behind the log tells nothing.
 */
export const isYetToCome = (
  service: Service,
  outings: readonly { startMs: number }[],
  nowMs: number,
): boolean =>
  isAhead(service, nowMs) && outings.every(({ startMs }) => startMs + HALF_A_DAY_MS < Date.parse(service.at));

/** "; the service of 2036-05-01 is dated later than today and restarts nothing (is that its day?)"; empty without one. */
export function yetToComeInWords(services: readonly Service[]): string {
  if (services.length === 0) return "";
  const days = services.map(({ at }) => at.slice(0, 10)).join(", ");
  return services.length === 1
    ? `; the service of ${days} is dated later than today and restarts nothing (is that its day?)`
    : `; the services of ${days} are dated later than today and restart nothing (are those their days?)`;
}
