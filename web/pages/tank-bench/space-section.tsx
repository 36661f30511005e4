import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { loadingGauges } from "../../../src/sizing/loading-gauges.ts";
import { usualScales } from "../../../src/sizing/typed-length.ts";
import { withValue } from "../../forms/draft.ts";
import { type Editing, length, Measures, Suggested } from "./measure-field.tsx";

/** What the lagged boiler and the loading gauge leave. */
export function SpaceSection({ engine, editing }: { engine: Locomotive; editing: Editing }) {
  const own = engine.boiler.outerDiameterMm;
  return (
    <fieldset class="bench-part">
      <legend>The space</legend>
      <p class="hint">
        Type a length in mm, in inches (1/2 in), or in feet and inches of the full size (7 ft 6 in).
      </p>
      <div class="fields">
        <Suggested path="tanks.scale" label="Scale" suggestions={usualScales} editing={editing} />
      </div>
      <Measures
        specs={[length("tanks.space.loadingGauge", "Loading gauge, whole width", [40, 200, 0.5])]}
        editing={editing}
      />
      <div class="actions">
        {loadingGauges.map(({ width, words }) => (
          <button
            key={width}
            type="button"
            class="as-link"
            onClick={() => editing.onDraft(withValue(editing.draft, "tanks.space.loadingGauge", width))}
          >
            {width}: {words}
          </button>
        ))}
      </div>
      <Measures
        specs={[
          length("tanks.space.boilerOuterDiameter", "Boiler, outside", [20, 150, 0.5], {
            ...(own === undefined ? {} : { usual: own }),
          }),
          length("tanks.space.lagging", "Lagging", [0, 5, 0.1], { usual: 1.2 }),
          length("tanks.space.cleading", "Cleading", [0, 1, 0.05], { usual: 0.3 }),
          length("tanks.space.band", "Bands", [0, 0.5, 0.05], { usual: 0.2 }),
          length("tanks.space.clearance", "Clearance to the tank", [0, 5, 0.1], { usual: 1.2 }),
          length("tanks.space.platework", "Platework beyond the tank", [0, 10, 0.1], { usual: 0 }),
          length("tanks.space.rivets", "Rivet heads", [0, 2, 0.1], { usual: 0 }),
        ]}
        editing={editing}
      />
    </fieldset>
  );
}
