import { isSolid } from "../../../src/analysis/fuel/fuel-table.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { cleadingSurfaces, laggingMaterials } from "../../../src/sizing/lagging-coefficients.ts";
import { withValue } from "../../forms/draft.ts";
import { type Editing, length, type MeasureSpec, Measures, Pick } from "./measure-field.tsx";

const CONDUCTS = "tanks.lagging.conductivityWPerMK";

const surfaces = Object.entries(cleadingSurfaces).map(([key, { words }]) => [key, words] as const);

/** Fuel tank, lagging and bending: what has a usual value. */
export function MoreSection({ engine, editing }: { engine: Locomotive; editing: Editing }) {
  const { kind, tankMl } = engine.fuel;
  const isSpirit = kind === "spirit";
  const fuel: MeasureSpec[] = [
    ...(isSolid(engine.fuel)
      ? []
      : [
          {
            path: "tanks.fuel.holdsMl",
            label: "Fuel tank holds",
            unit: "ml",
            slide: [0, 400, 5] as const,
            ...(tankMl === undefined ? {} : { usual: tankMl }),
          },
        ]),
    ...(isSpirit
      ? [
          {
            path: "tanks.fuel.expansionFraction",
            label: "Left empty for the spirit to swell",
            unit: "of 1",
            slide: [0.05, 0.1, 0.01] as const,
            usual: 0.08,
          },
        ]
      : []),
  ];
  return (
    <details class="fold">
      <summary>
        {isSolid(engine.fuel) ? "Kind" : "Fuel tank, kind"} of lagging, bends, spread of one run
      </summary>
      <Measures
        specs={[
          ...fuel,
          {
            path: CONDUCTS,
            label: "Lagging conducts",
            unit: "W/m/K",
            slide: [0.02, 0.2, 0.005],
            usual: 0.05,
          },
        ]}
        editing={editing}
      />
      <ul class="bench-offers">
        {laggingMaterials.map(({ name, conductivityWPerMK, source }) => (
          <li key={name}>
            <button
              type="button"
              class="as-link"
              onClick={() => editing.onDraft(withValue(editing.draft, CONDUCTS, conductivityWPerMK))}
            >
              {conductivityWPerMK}: {name}
            </button>
            <span class="figure-note">{source}</span>
          </li>
        ))}
      </ul>
      <div class="fields">
        <Pick
          path="tanks.lagging.cleadingSurface"
          label="Cleading is"
          choices={surfaces}
          editing={editing}
          usual="painted"
        />
      </div>
      <Measures
        specs={[
          {
            path: "tanks.lagging.ambientC",
            label: "Air",
            unit: "°C",
            slide: [-10, 35, 1],
            usual: 15,
          },
          length("tanks.lagging.measuredWith", "Lagging on when cooling was measured", [0, 4, 0.1], {
            usual: 0,
          }),
          {
            path: "tanks.bendFactor",
            label: "Bends keep their length at",
            unit: "of the plate",
            slide: [0.2, 0.5, 0.01],
            usual: 0.4,
          },
          {
            path: "usableFraction",
            label: "Usable part of a tank without freeboard or dead depth",
            unit: "of 1",
            slide: [0.5, 1, 0.01],
            usual: 0.87,
          },
          {
            path: "spreadRelative",
            label: "Spread where one run stands alone",
            unit: "of 1",
            slide: [0.02, 0.5, 0.01],
            usual: 0.15,
          },
        ]}
        editing={editing}
      />
    </details>
  );
}
