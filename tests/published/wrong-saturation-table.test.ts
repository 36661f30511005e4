import { describe, expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import type { Entry } from "../../src/logbook/entry.ts";
import { smallEngine, smallSteaming } from "../support/small-logbook.ts";
import { rightRows, wrongSaturationTable } from "./wrong-saturation-table.ts";

type Row = { barG: number; celsius: number };

const rows: Row[] = [...wrongSaturationTable.rising, ...wrongSaturationTable.falling];

/** The rows as somebody would log them, one each two minutes: thermometer t0, t1 ... and dial p0, p1 ... */
function namedOf(table: readonly Row[]): string[] {
  const entries = table.flatMap(({ barG, celsius }, i): Entry[] => [
    { id: `p${i}`, kind: "pressure", atS: 120 * i, barG },
    { id: `t${i}`, kind: "temperature", of: "boiler", atS: 120 * i + 5, celsius },
  ]);
  const { warnings } = analyse(smallEngine(), { ...smallSteaming(), entries });
  return warnings
    .filter((warning) => warning.code === "pressure-and-temperature")
    .flatMap((warning) => warning.entries);
}

describe("a saturation table that is wrong on purpose", () => {
  test("has ten rows", () => expect(rows).toHaveLength(10));

  const named = namedOf(rows);
  test.each(rows.map((row, i) => ({ ...row, i })))(
    "row $i, $barG bar and $celsius °C, is flagged by dial and thermometer",
    ({ i }) => {
      expect(named).toContain(`t${i}`);
      expect(named).toContain(`p${i}`);
    },
  );

  // cold water under no pressure is no fault by itself; only a thermometer caught at it elsewhere makes it one
  test.each(rows.filter((row) => row.barG > 0 || row.celsius > 100))(
    "$barG bar and $celsius °C is flagged though it stands alone",
    (row) => expect(namedOf([row])).toEqual(["p0", "t0"]),
  );
});

describe("rows that are right", () => {
  test.each(rightRows)("$barG bar and $celsius °C is not flagged", (row) =>
    expect(namedOf([row])).toEqual([]),
  );

  test("nor are they all together, nor cold water before there is pressure", () => {
    expect(namedOf([{ barG: 0, celsius: 15 }, { barG: 0, celsius: 60 }, ...rightRows])).toEqual([]);
  });

  test("one slip among right rows is named alone", () => {
    expect(namedOf([...rightRows, { barG: 2.6, celsius: 104 }])).toEqual(["p4", "t4"]);
  });
});
