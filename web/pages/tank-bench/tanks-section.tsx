import type { ComponentChildren } from "preact";
import type { Tank } from "../../../src/sizing/tanks-schema.ts";
import { valueAt, withValue } from "../../forms/draft.ts";
import { blankTank, tankKinds } from "./blank-plan.ts";
import { type Editing, form, length, type MeasureSpec, Measures, Pick } from "./measure-field.tsx";

const kindWords = new Map<string, string>(tankKinds);

/** The tanks one by one, and the dimension that is left free. */
export function TanksSection({ editing }: { editing: Editing }) {
  const { draft, onDraft } = editing;
  const listed = valueAt(draft, "tanks.water");
  const tanks = Array.isArray(listed) ? (listed as Record<string, unknown>[]) : [];
  const without = (place: number) => {
    const rest = withValue(draft, "tanks.water", tanks.toSpliced(place, 1));
    onDraft(withValue(rest, "tanks.solve", undefined));
  };
  return (
    <fieldset class="bench-part">
      <legend>The tanks</legend>
      {tanks.map((tank, place) => (
        // a tank need not have a name: its place is what tells it apart
        <TankPart key={`tank ${String(place)}`} place={place} kind={String(tank.kind)} editing={editing}>
          {tanks.length > 1 && (
            <button type="button" class="as-link" onClick={() => without(place)}>
              Take this tank out
            </button>
          )}
        </TankPart>
      ))}
      <div class="actions">
        {tankKinds.map(([kind, words]) => (
          <button
            key={kind}
            type="button"
            onClick={() => onDraft(withValue(draft, "tanks.water", [...tanks, blankTank(kind)]))}
          >
            Add a {words}
          </button>
        ))}
      </div>
      <FreeDimension tanks={tanks} editing={editing} />
    </fieldset>
  );
}

function specsOf(at: string, kind: string): { main: MeasureSpec[]; more: MeasureSpec[] } {
  const main = [
    length(`${at}.length`, "Length outside", [10, 300, 0.5]),
    length(`${at}.height`, "Height outside", [5, 120, 0.5]),
    kind === "side-pair"
      ? length(`${at}.base`, "Underside, from the boiler's middle", [-60, 40, 0.5], {
          hint: "below is minus",
        })
      : length(`${at}.width`, "Width outside", [5, 150, 0.5]),
    ...(kind === "well"
      ? [
          length(`${at}.base`, "Underside, from the boiler's middle", [-90, 0, 0.5], {
            hint: "below is minus; left empty, its place is not checked",
          }),
        ]
      : []),
  ];
  const more: MeasureSpec[] = [
    length(`${at}.plate`, "Plate", [0.3, 1.5, 0.05], { usual: 0.7 }),
    length(`${at}.cornerRadius`, "Corner radius inside", [0, 12, 0.5], { usual: 0 }),
    length(`${at}.freeboard`, "Freeboard", [0, 10, 0.5]),
    length(`${at}.deadDepth`, "Dead depth at the suction", [0, 10, 0.5]),
    {
      path: `${at}.pumpBodyMl`,
      label: kind === "side-pair" ? "Pump body inside, each" : "Pump body inside",
      unit: "ml",
      slide: [0, 30, 0.5],
      usual: 0,
    },
    ...(kind === "side-pair" ? [length(`${at}.balancePipe`, "Balance pipe, bore", [1, 10, 0.5])] : []),
  ];
  return { main, more };
}

interface TankProperties {
  place: number;
  kind: string;
  editing: Editing;
  children: ComponentChildren;
}

function TankPart({ place, kind, editing, children }: TankProperties) {
  const at = `tanks.water.${place}`;
  const { main, more } = specsOf(at, kind);
  const isCurved = valueAt(editing.draft, `${at}.innerFace`) === "curved";
  return (
    <section class="bench-tank" aria-label={`Tank ${place + 1}`}>
      <h3>
        {place + 1}: {kindWords.get(kind) ?? kind}
      </h3>
      <Measures specs={main} editing={editing} />
      {kind === "side-pair" && (
        <div class="fields">
          <Pick
            path={`${at}.innerFace`}
            label="Inner face"
            choices={[
              ["flat", "flat"],
              ["curved", "curved, round the cleading"],
            ]}
            usual="flat"
            editing={editing}
          />
        </div>
      )}
      {isCurved && (
        <Measures
          specs={[length(`${at}.nearest`, "May come this near the engine's middle", [0, 60, 0.5])]}
          editing={editing}
        />
      )}
      <details class="fold">
        <summary>Plate, corners, freeboard, pump, pipes and cut-outs</summary>
        <Measures specs={more} editing={editing} />
        <Rows
          path={`${at}.cutOuts`}
          name="cut-out"
          blank={{ along: 10, length: 15, up: 0, height: 8 }}
          fields={[
            ["along", "From the front", [0, 200, 0.5]],
            ["length", "Length", [1, 200, 0.5]],
            ["up", "Above the floor", [0, 100, 0.5]],
            ["height", "Height", [1, 100, 0.5]],
            ["width", "In from the outer face (empty: right through)", [1, 60, 0.5]],
          ]}
          editing={editing}
        />
        <Rows
          path={`${at}.pipes`}
          name="pipe"
          blank={{ diameter: 3, length: 40 }}
          fields={[
            ["diameter", "Diameter", [1, 12, 0.5]],
            ["length", "Length in the water", [1, 200, 1]],
          ]}
          editing={editing}
        />
      </details>
      {children}
    </section>
  );
}

interface RowsProperties {
  path: string;
  name: string;
  blank: Record<string, number>;
  fields: readonly (readonly [key: string, label: string, slide: MeasureSpec["slide"]])[];
  editing: Editing;
}

function Rows({ path, name, blank, fields, editing }: RowsProperties) {
  const { draft, onDraft } = editing;
  const listed = valueAt(draft, path);
  const rows: unknown[] = Array.isArray(listed) ? listed : [];
  return (
    <div class="rows">
      {rows.map((_, i) => (
        <fieldset key={`${path}.${String(i)}`}>
          <legend>
            {name} {i + 1}
          </legend>
          <Measures
            specs={fields.map(([key, label, slide]) => length(`${path}.${i}.${key}`, label, slide))}
            editing={editing}
          />
          <button
            type="button"
            class="as-link"
            onClick={() => {
              const rest = rows.toSpliced(i, 1);
              onDraft(withValue(draft, path, rest.length === 0 ? undefined : rest));
            }}
          >
            Take this {name} out
          </button>
        </fieldset>
      ))}
      <button type="button" onClick={() => onDraft(withValue(draft, path, [...rows, blank]))}>
        Add a {name}
      </button>
    </div>
  );
}

const freeDimensions: readonly (readonly [string, string])[] = [
  ["length", "length"],
  ["height", "height"],
  ["width", "width"],
];

function FreeDimension({ tanks, editing }: { tanks: readonly Record<string, unknown>[]; editing: Editing }) {
  const { draft, onDraft } = editing;
  const solve = valueAt(draft, "tanks.solve") as { tank: number; dimension: string } | undefined;
  const choices = tanks.flatMap(({ kind }, place) =>
    freeDimensions
      .filter(([dimension]) => dimension !== "width" || (kind as Tank["kind"]) !== "side-pair")
      .map(([dimension, words]) => [`${place} ${dimension}`, `least ${words} of tank ${place + 1}`] as const),
  );
  const choose = (text: string) => {
    const [place, dimension] = text.split(" ");
    const next = text === "" ? undefined : { tank: Number(place), dimension, atMost: 150 };
    onDraft(withValue(draft, "tanks.solve", next));
  };
  return (
    <>
      <div class="fields">
        <div class="field whole-row">
          <label for={`${form}-solve`}>
            <span class="label-words">Size to be found</span>
          </label>
          <select
            id={`${form}-solve`}
            value={solve === undefined ? "" : `${solve.tank} ${solve.dimension}`}
            onChange={(event) => choose(event.currentTarget.value)}
          >
            <option value="">none: judge the tanks as they are</option>
            {choices.map(([key, words]) => (
              <option key={key} value={key}>
                {words}
              </option>
            ))}
          </select>
        </div>
      </div>
      {solve !== undefined && (
        <Measures
          specs={[length("tanks.solve.atMost", "It may become at most", [10, 400, 0.5])]}
          editing={editing}
        />
      )}
    </>
  );
}
