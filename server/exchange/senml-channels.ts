import type { Channel } from "../store/traces.ts";
import { SenmlError, type SenmlReading } from "./senml.ts";

/** Units that a channel takes, with how to get from them to its own. Pressures are gauge pressures. */
const units: Record<Channel, { own: string; from: Record<string, (value: number) => number> }> = {
  pressureBarG: {
    own: "bar",
    from: {
      bar: (value) => value,
      Pa: (value) => value / 1e5,
      hPa: (value) => value / 1e3,
      kPa: (value) => value / 1e2,
      MPa: (value) => value * 10,
    },
  },
  temperatureC: { own: "Cel", from: { Cel: (value) => value, K: (value) => value - 273.15 } },
  levelMm: {
    own: "mm",
    from: { mm: (value) => value, cm: (value) => value * 10, m: (value) => value * 1e3 },
  },
  massG: { own: "g", from: { g: (value) => value, kg: (value) => value * 1e3 } },
};

export const channels = Object.keys(units) as Channel[];
const greatest = 1e9;

/** The channel that a name speaks of: its last word, after the last : . / _ or -. */
export function channelOf(reading: SenmlReading): Channel {
  const word = reading.name.split(/[:./_-]/).at(-1) ?? "";
  const channel = channels.find((name) => name === word);
  if (channel === undefined) {
    const wanted = `a name that ends in one of ${channels.join(", ")}`;
    throw new SenmlError(`[${reading.index}].n`, JSON.stringify(reading.name), wanted);
  }
  return channel;
}

/** The value in the channel's own unit, to a billionth; without a unit it is in that already, as the name says. */
export function inOwnUnit(reading: SenmlReading, channel: Channel): number {
  const { own, from } = units[channel];
  const convert = from[reading.unit ?? own];
  if (convert === undefined) {
    const wanted = `one of ${Object.keys(from).join(", ")} for ${channel}`;
    throw new SenmlError(`[${reading.index}].u`, JSON.stringify(reading.unit), wanted);
  }
  const value = convert(reading.value);
  if (!(Math.abs(value) <= greatest)) {
    throw new SenmlError(`[${reading.index}].v`, String(value), `a value within ±${greatest}`);
  }
  // a conversion's last binary digits are not the sensor's
  return convert === from[own] ? value : Math.round(value * 1e9) / 1e9;
}
