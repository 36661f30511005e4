import { type Trace, traceSchema } from "../../logbook/steaming.ts";
import type { Timeline } from "../../logbook/timeline.ts";
import { samplesOf } from "./trace-samples.ts";

/** What a logger wrote of one channel: samples (gaps are none), from the first to the last, s. */
export interface Logged {
  channel: Trace["channel"];
  samples: number;
  fromS: number;
  toS: number;
  /** null where traces of the channel differ in it */
  everyS: number | null;
}

/** What loggers wrote of a steaming, a channel each. */
export const loggedIn = (timeline: Timeline): Logged[] =>
  traceSchema.shape.channel.options.flatMap((channel) => {
    const samples = samplesOf(timeline, channel);
    const [first, last] = [samples[0], samples.at(-1)];
    if (first === undefined || last === undefined) return [];
    const rates = new Set(timeline.traces.flatMap((one) => (one.channel === channel ? [one.everyS] : [])));
    const everyS = rates.size === 1 ? ([...rates][0] ?? null) : null;
    return [{ channel, samples: samples.length, fromS: first.atS, toS: last.atS, everyS }];
  });
