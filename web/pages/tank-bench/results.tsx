import type { ComponentChildren } from "preact";
import type { Reported } from "../../../src/quantity/reported.ts";
import { inHundred, ofHundred, roundedDown, roundedUp, toDigits } from "../../../src/sizing/rounding.ts";
import type { Sizing } from "../../../src/sizing/sizing-schema.ts";
import { Doubt, Figure } from "../../parts/figure.tsx";
import { plain } from "../../words/number.ts";

/** A figure by its name, its doubt a tap away where it has any; in ml, as all of the bench is. */
export function FigureRow({
  name,
  note,
  figure: given,
  to,
}: {
  name: string;
  note?: string;
  figure: Reported;
  /** a need is rounded up, a capacity down */
  to?: "up" | "down";
}) {
  const figure = to === undefined ? given : limitRounded(given, to);
  const head = (
    <>
      <span>
        {name}
        {note !== undefined && <span class="figure-note">{note}</span>}
      </span>
      <Figure figure={figure} form="own-unit" />
    </>
  );
  return figure.value === null || (figure.parts ?? []).length === 0 ? (
    <div class={figure.value === null ? "figure-line none" : "figure-line plain-line"}>{head}</div>
  ) : (
    <details class="figure-line">
      <summary>{head}</summary>
      <Doubt figure={figure} form="own-unit" />
    </details>
  );
}

/** A limit has no doubt of its own to be rounded by: three digits are enough to make a tank. */
const limitRounded = (figure: Reported, to: "up" | "down"): Reported => {
  if (figure.value === null) return figure;
  const value = toDigits(figure.value, 3, to);
  return { ...figure, value, lo95: value, hi95: value };
};

export function Group({ title, children }: { title: string; children: ComponentChildren }) {
  return (
    <section class="figure-group">
      <h2>{title}</h2>
      {children}
    </section>
  );
}

export function WaterResults({ sizing }: { sizing: Sizing }) {
  const runs = sizing.runs.length;
  return (
    <Group title="Water">
      <FigureRow
        name="Expected"
        note={`${runs} ${runs === 1 ? "run" : "runs"}${sizing.byLoad ? ", read off their line in the load" : ""}; where one run may lie`}
        figure={sizing.demand}
      />
      <FigureRow
        name={`Suffices ${inHundred(sizing.probability)} times in 100`}
        figure={sizing.bound}
        to="up"
      />
      {sizing.feeding.underPressure && (
        <FigureRow
          name="Plain tank for it"
          note="all inside, not all to use"
          figure={sizing.needed}
          to="up"
        />
      )}
      {sizing.withMoreRuns.length > 0 && (
        <p class="hint">
          With further runs like these about{" "}
          {sizing.withMoreRuns
            .map(
              ({ moreRuns, boundMl }) =>
                `${plain(roundedUp(boundMl, 0), 0)} ml (${moreRuns} more ${moreRuns === 1 ? "run" : "runs"})`,
            )
            .join(", ")}{" "}
          would suffice as surely.
        </p>
      )}
    </Group>
  );
}

export function TankResults({ sizing }: { sizing: Sizing }) {
  const { fit } = sizing;
  return (
    <Group title="Tanks">
      {sizing.tanks.map((tank, i) => (
        <FigureRow
          key={`${tank.name} ${String(i)}`}
          name={tank.name}
          note={
            tank.usable.value === null || tank.holds.value === null
              ? ""
              : `${plain(tank.lengthMm ?? 0, 1)} x ${plain(tank.widthMm ?? 0, 1)} x ${plain(tank.heightMm ?? 0, 1)} mm${tank.count === 2 ? " each" : ""}; ${plain(roundedDown(tank.holds.value, 0), 0)} ml in all`
          }
          figure={tank.usable}
          to="down"
        />
      ))}
      {fit !== null && fit.sensitivity.length > 0 && (
        <table class="bench-table">
          <caption>What one millimetre more buys</caption>
          <thead>
            <tr>
              <th scope="col">dimension</th>
              <th scope="col">ml to use</th>
            </tr>
          </thead>
          <tbody>
            {fit.sensitivity.map(({ dimension, mlPerMm }) => (
              <tr key={dimension}>
                <th scope="row">{dimension}</th>
                <td>
                  {mlPerMm > 0 ? "+" : ""}
                  {plain(mlPerMm, 2)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {fit?.short !== null && fit !== null && fit.short.closers.length > 0 && (
        <table class="bench-table">
          <caption>What alone would close the gap</caption>
          <thead>
            <tr>
              <th scope="col">dimension</th>
              <th scope="col">mm</th>
            </tr>
          </thead>
          <tbody>
            {fit.short.closers.map(({ tank, dimension, change, byMm }) => (
              <tr key={`${tank} ${dimension}`}>
                <th scope="row">{tank === null ? dimension : `${tank}: ${dimension}`}</th>
                <td>
                  {plain(byMm, 1)} {change}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </Group>
  );
}

const chance = (value: number | null, why: string | null): string =>
  value === null ? (why ?? "not known") : `in ${ofHundred(value)} of 100`;

const whyNot = (figure: Reported): string | null => (figure.value === null ? figure.why : null);

export function EnduranceResults({ sizing }: { sizing: Sizing }) {
  const { endurance, fuel, feeding } = sizing;
  return (
    <Group title="Fuel, and which ends first">
      <FigureRow name="Water lasts" figure={endurance.waterLasts} />
      <FigureRow name="Fuel lasts" figure={endurance.fuelLasts} />
      <dl class="bench-chances">
        <dt>Fire ends before the water</dt>
        <dd>{chance(endurance.fuelEndsFirst, endurance.why)}</dd>
        <dt>Water lasts the plan</dt>
        <dd>{chance(endurance.waterSuffices, whyNot(endurance.waterLasts))}</dd>
        <dt>Fuel lasts the plan</dt>
        <dd>{chance(endurance.fuelSuffices, whyNot(endurance.fuelLasts))}</dd>
      </dl>
      <FigureRow name="Fuel expected" figure={fuel.demand} />
      <FigureRow
        name={`Fuel that suffices ${inHundred(sizing.probability)} times in 100`}
        figure={fuel.bound}
        to="up"
      />
      <FigureRow
        name="Fuel tank for it"
        {...(fuel.tankMl.value === null ? {} : { note: fuel.spare })}
        figure={fuel.tankMl}
        to="up"
      />
      <FigureRow
        name="Hand pump, lowest to highest level"
        note="strokes"
        figure={feeding.handPumpStrokes.lowestToHighest}
      />
      <FigureRow
        name="Hand pump, empty to highest level"
        note="strokes"
        figure={feeding.handPumpStrokes.emptyToHighest}
      />
      <FigureRow name="Axle pump, back through the by-pass" figure={feeding.axlePump.returned} />
    </Group>
  );
}

export function CuttingTable({ sizing }: { sizing: Sizing }) {
  return (
    <section class="scroll-wide" aria-label="Cutting list">
      <table class="bench-table cutting">
        <caption>Cutting list: length x width x thickness in mm</caption>
        <thead>
          <tr>
            <th scope="col">piece</th>
            <th scope="col">flat size</th>
          </tr>
        </thead>
        <tbody>
          {sizing.cutting.map((piece, i) => (
            <tr key={`${piece.name} ${String(i)}`}>
              <th scope="row">
                {piece.count} x {piece.name}
                {piece.note !== null && <span class="figure-note">{piece.note}</span>}
              </th>
              <td>
                {piece.thicknessMm === 0
                  ? `${plain(piece.lengthMm, 1)} long, ${plain(piece.widthMm, 1)} bore`
                  : `${plain(piece.lengthMm, 1)} x ${plain(piece.widthMm, 1)} x ${plain(piece.thicknessMm, 2)}`}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
