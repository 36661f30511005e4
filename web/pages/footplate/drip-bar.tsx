import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { RawTime } from "../../outbox/database.ts";
import { clockOf } from "../../words/time.ts";
import { type Drip, drips, endDrip } from "./drips.ts";

interface Properties {
  steamingId: string;
  engine: Locomotive;
  nowS: number;
  secondsOf: (raw: RawTime) => number;
  onStop: (drip: Drip) => void;
}

/** Cups that are being held under fittings, each with its own stopwatch. */
export function DripBar({ steamingId, engine, nowS, secondsOf, onStop }: Properties) {
  const own = drips.value.filter((drip) => drip.steamingId === steamingId);
  if (own.length === 0) return null;
  return (
    <ul class="drip-bar">
      {own.map((drip) => {
        const name = engine.fittings.find((fitting) => fitting.id === drip.fitting)?.name ?? drip.fitting;
        return (
          <li key={`${drip.fitting} ${drip.began.phoneMs}`}>
            <button type="button" class="key stopwatch" onClick={() => onStop(drip)}>
              Stop: {name}
              <span class="sub">{clockOf(Math.max(0, Math.floor(nowS - secondsOf(drip.began))))}</span>
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
