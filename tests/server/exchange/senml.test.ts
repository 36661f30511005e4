import { expect, test } from "vitest";
import { resolve } from "../../../server/exchange/senml.ts";

/** Examples of IETF RFC 8428, section 5.1, resolved as its section 4.6 and 5.1.4 say. */

test("base name, time and unit hold for the records that follow (RFC 8428, 5.1.2)", () => {
  const readings = resolve(
    [
      {
        bn: "urn:dev:ow:10e2073a0108006:",
        bt: 1.276020076001e9,
        bu: "A",
        bver: 5,
        n: "voltage",
        u: "V",
        v: 120.1,
      },
      { n: "current", t: -5, v: 1.2 },
      { n: "current", t: -4, v: 1.3 },
      { n: "current", v: 1.7 },
    ],
    0,
  );
  expect(readings).toEqual([
    {
      index: 0,
      name: "urn:dev:ow:10e2073a0108006:voltage",
      unit: "V",
      value: 120.1,
      unixS: 1.276020076001e9,
    },
    { index: 1, name: "urn:dev:ow:10e2073a0108006:current", unit: "A", value: 1.2, unixS: 1.276020071001e9 },
    { index: 2, name: "urn:dev:ow:10e2073a0108006:current", unit: "A", value: 1.3, unixS: 1.276020072001e9 },
    { index: 3, name: "urn:dev:ow:10e2073a0108006:current", unit: "A", value: 1.7, unixS: 1.276020076001e9 },
  ]);
});

test("a time below 2^28 is relative to now, one from there on is absolute (RFC 8428, 4.5.3)", () => {
  const nowS = 1_800_000_000;
  const at = (t?: number) =>
    resolve([{ n: "levelMm", v: 1, ...(t === undefined ? {} : { t }) }], nowS)[0]?.unixS;
  expect(at()).toBe(nowS);
  expect(at(-10)).toBe(nowS - 10);
  expect(at(2 ** 28 - 1)).toBe(nowS + 2 ** 28 - 1);
  expect(at(2 ** 28)).toBe(2 ** 28);
});

test("a base value is added to each value, and stands alone where there is none (RFC 8428, 4.1 and 4.6)", () => {
  const pack = [{ bn: "a/", bv: 20, n: "temperatureC", v: 0.5 }, { n: "temperatureC" }];
  expect(resolve(pack, 0).map(({ value }) => value)).toEqual([20.5, 20]);
});

test("labels that need not be understood are passed over (RFC 8428, 4.4)", () => {
  expect(resolve([{ n: "levelMm", v: 1, colour: "green" }], 0)).toHaveLength(1);
});

test.each(["", "-level", "level mm", "lével"])("the name %j is refused (RFC 8428, 4.5.1)", (name) => {
  expect(() => resolve([{ n: name, v: 1 }], 0)).toThrow(/\[0\]\.n/);
});
