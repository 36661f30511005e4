import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { secondsSince } from "../../outbox/stamp.ts";
import { fittingName } from "../../words/entry-words.ts";
import { clockOf } from "../../words/time.ts";
import { type Drip, drips, endDrip } from "./drips.ts";

interface Properties {
  steamingId: string;
  engine: Locomotive;
  nowS: number;
  startedAt: string;
  onStop: (drip: Drip) => void;
}

/** Cups that are being held under fittings, each with its own stopwatch. */
export function DripBar({ steamingId, engine, nowS, startedAt, onStop }: Properties) {
  const own = drips.value.filter((drip) => drip.steamingId === steamingId);
  if (own.length === 0) return null;
  return (
    <ul class="drip-bar">
      {own.map((drip) => {
        const name = fittingName(drip.fitting, engine);
        return (
          <li key={`${drip.fitting} ${drip.began.phoneMs}`}>
            <button type="button" class="key stopwatch" onClick={() => onStop(drip)}>
              Stop: {name}
              <span class="sub">
                {clockOf(Math.max(0, Math.floor(nowS - secondsSince(startedAt, drip.began))))}
              </span>
            </button>
            <button type="button" class="key" onClick={() => endDrip(drip)}>
              Spilt<span class="unseen">: forget the drip of {name}</span>
            </button>
          </li>
        );
      })}
    </ul>
  );
}
