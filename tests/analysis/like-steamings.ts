import type { Entry } from "../../src/logbook/entry.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { Steaming } from "../../src/logbook/steaming.ts";

export interface Recorded {
  locomotive: Locomotive;
  steaming: Steaming;
}

/** The same steaming of an engine `times` as large in all that has mass or volume; heights and pressures are the same. */
export function enlarged({ locomotive, steaming }: Recorded, times: number): Recorded {
  const { boiler, cylinders, axlePump, handPump, instruments = {} } = locomotive;
  const { shape } = boiler;
  const wider = Math.sqrt(times);
  const larger = (entry: Entry): Entry => {
    switch (entry.kind) {
      case "feed":
      case "blowdown":
      case "fill":
      case "drained":
        return { ...entry, ml: entry.ml * times };
      case "fuel":
        return {
          ...entry,
          ...(entry.g !== undefined && { g: entry.g * times }),
          ...(entry.ml !== undefined && { ml: entry.ml * times }),
        };
      case "drip":
      case "weight":
        return { ...entry, g: entry.g * times };
      case "pull":
        return { ...entry, newtons: entry.newtons * times };
      default:
        return entry;
    }
  };
  return {
    locomotive: {
      ...locomotive,
      boiler: {
        ...boiler,
        metalMassG: boiler.metalMassG * times,
        shape:
          shape.kind === "horizontal"
            ? { ...shape, innerLengthMm: shape.innerLengthMm * times }
            : shape.kind === "table"
              ? {
                  ...shape,
                  totalMl: shape.totalMl * times,
                  points: shape.points.map((point) => ({ ...point, waterMl: point.waterMl * times })),
                }
              : {
                  ...shape,
                  innerDiameterMm: shape.innerDiameterMm * wider,
                  tubes: (shape.tubes ?? []).map((tube) => ({
                    ...tube,
                    outerDiameterMm: tube.outerDiameterMm * wider,
                  })),
                },
      },
      ...(cylinders && { cylinders: { ...cylinders, count: cylinders.count * times } }),
      ...(axlePump && { axlePump: { ...axlePump, strokesPerRev: axlePump.strokesPerRev * times } }),
      ...(handPump && {
        handPump: {
          mlPerStroke: handPump.mlPerStroke * times,
          ...(handPump.uMlPerStroke !== undefined && { uMlPerStroke: handPump.uMlPerStroke * times }),
        },
      }),
      instruments: {
        ...instruments,
        massReadingG: (instruments.massReadingG ?? 1) * times,
        volumeReadingMl: (instruments.volumeReadingMl ?? 1) * times,
      },
    },
    steaming: {
      ...steaming,
      ...(steaming.train && { train: { ...steaming.train, massKg: steaming.train.massKg * times } }),
      entries: steaming.entries.map(larger),
      traces: (steaming.traces ?? []).map((trace) =>
        trace.channel === "massG"
          ? { ...trace, values: trace.values.map((value) => (value === null ? null : value * times)) }
          : trace,
      ),
    },
  };
}

/** The same steaming, its clock started so many seconds sooner. */
export function later({ locomotive, steaming }: Recorded, byS: number): Recorded {
  return {
    locomotive,
    steaming: {
      ...steaming,
      entries: steaming.entries.map((entry): Entry => ({ ...entry, atS: entry.atS + byS })),
      traces: (steaming.traces ?? []).map((trace) => ({ ...trace, startS: trace.startS + byS })),
    },
  };
}
