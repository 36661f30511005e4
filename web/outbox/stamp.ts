import { serverMsOf } from "./clock.ts";
import type { RawTime, SteamingRecord } from "./database.ts";

/** Seconds since a steaming's start of a moment of the phone's, to the hundredth. */
export const secondsSince = (startedAt: string, raw: RawTime): number =>
  Math.round((serverMsOf(raw) - Date.parse(startedAt)) / 10) / 100;

/** A moment with the phone's own offset from UTC, to the second. */
export function momentOf(ms: number): string {
  const minutes = -new Date(ms).getTimezoneOffset();
  const two = (number: number) => String(number).padStart(2, "0");
  const size = Math.abs(minutes);
  const local = new Date(ms + minutes * 60_000).toISOString().slice(0, 19);
  return `${local}${minutes < 0 ? "-" : "+"}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

/** A steaming that was begun here, its start by what is known now of the server's clock. */
export function restampedHead(record: SteamingRecord): SteamingRecord {
  if (record.raw === undefined || record.settled === true) return record;
  return { ...record, head: { ...record.head, startedAt: momentOf(serverMsOf(record.raw)) } };
}
