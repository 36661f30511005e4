import { secondsSinceStart } from "../../src/logbook/bounds.ts";
import type { Trace } from "../../src/logbook/steaming.ts";
import type { Store } from "../store/store.ts";
import type { Channel } from "../store/traces.ts";
import { resolve, SenmlError, type SenmlPack, type SenmlReading } from "./senml.ts";
import { channelOf, inOwnUnit } from "./senml-channels.ts";
import { onUniformGrid, type TimedSample } from "./uniform-grid.ts";

/**
 * The traces that a pack holds, on a steaming's own clock. Where the steaming has a trace of the channel whose
 * grid the samples fit, they are put on that grid.
 * @param startedAtMs when the steaming started, ms since 1970-01-01 UTC
 * @throws SenmlError what cannot be a trace, with the record's place in the pack
 */
export function tracesFrom(
  pack: SenmlPack,
  store: Store,
  steamingId: string,
  startedAtMs: number,
  nowMs: number,
): Trace[] {
  const readings = resolve(pack, nowMs / 1000);
  if (readings.length === 0)
    throw new SenmlError("(the whole)", "no reading", "at least one record with a v");
  const heads = store.traces.heads(steamingId);
  return [...byChannel(readings)].map(([channel, own]): Trace => {
    const known = heads.filter((head) => head.channel === channel).reverse();
    const samples = own.map((reading) => timed(reading, channel, startedAtMs)).sort((a, b) => a.atS - b.atS);
    const gridded = onUniformGrid(samples, known);
    const [first] = own;
    if (gridded === null) {
      const came = `${samples.length} ${samples.length === 1 ? "sample" : "samples"} of ${channel}`;
      const wanted =
        "two or more of evenly spaced times (within a quarter of a step), or such as continue a trace kept here";
      throw new SenmlError(`[${first?.index ?? 0}].t`, came, wanted);
    }
    return { channel, ...gridded };
  });
}

/** The readings of each channel; a channel has one name, as two sensors do not make one trace. */
function byChannel(readings: readonly SenmlReading[]): Map<Channel, SenmlReading[]> {
  const found = new Map<Channel, SenmlReading[]>();
  for (const reading of readings) {
    const channel = channelOf(reading);
    const own = found.get(channel) ?? [];
    const [first] = own;
    if (first !== undefined && first.name !== reading.name) {
      const came = `${JSON.stringify(reading.name)} beside ${JSON.stringify(first.name)}`;
      throw new SenmlError(`[${reading.index}].n`, came, `one name for ${channel} in a pack`);
    }
    found.set(channel, own);
    own.push(reading);
  }
  return found;
}

function timed(reading: SenmlReading, channel: Channel, startedAtMs: number): TimedSample {
  const atS = reading.unixS - startedAtMs / 1000;
  if (!secondsSinceStart.safeParse(atS).success) {
    const came = `a moment ${Math.round(atS)} s after the steaming started`;
    throw new SenmlError(`[${reading.index}].t`, came, "from 7 days before it to 366 days after");
  }
  return { atS, value: inOwnUnit(reading, channel) };
}
