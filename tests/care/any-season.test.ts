import { expect, test } from "vitest";
import { type Random, randomOf } from "../../sample-data/simulator/random.ts";
import { bookOf } from "../../src/care/book.ts";
import { bookSchema } from "../../src/care/book-schema.ts";
import { careOf } from "../../src/care/care.ts";
import { careReportOf } from "../../src/care/care-report.ts";
import { careSchema } from "../../src/care/care-schema.ts";
import { careText } from "../../src/care/care-text.ts";
import type { Entry } from "../../src/logbook/entry.ts";
import type { Service } from "../../src/logbook/service.ts";
import { engineWith, outing, recordsOf } from "./season-logbook.ts";

const sizeBetween = (random: Random, low: number, high: number) => 10 ** random.between(low, high);
const times = <T>(count: number, make: (i: number) => T): T[] =>
  Array.from({ length: count }, (_, i) => make(i));

function anyEntry(fittings: number, random: Random): Entry {
  const head = { fitting: `f${random.whole(0, fittings - 1)}`, atS: random.whole(-100, 4000) };
  return random.chance(0.6)
    ? {
        ...head,
        kind: "drip",
        g: random.chance(0.2) ? 0 : sizeBetween(random, -4, 4),
        overS: sizeBetween(random, -1, 3.5),
      }
    : { ...head, kind: "look", grade: random.pick(["dry", "damp", "weeping", "dripping", "blowing"]) };
}

test("whatever was caught, at whatever limit and pressure, the book holds to its form and names no NaN", () => {
  for (const seed of times(80, (i) => i + 1)) {
    const random = randomOf(seed, "any season");
    const count = random.whole(1, 4);
    const engine = engineWith(
      times(count, (i) => ({
        id: `f${i}`,
        name: `Fitting ${i}`,
        kind: random.pick(["gland", "clack", "regulator", "safety-valve", "burner", "pump", "other"]),
        ...(random.chance(0.6) ? { limitGPerMin: sizeBetween(random, -4, 3) } : {}),
      })),
    );
    const steamings = times(random.whole(0, 9), (week) => ({
      ...outing(
        random.chance(0.2) ? 0 : week,
        times(random.whole(0, 4), () => anyEntry(count, random)),
        random.chance(0.2) ? 0 : sizeBetween(random, -2, 0.8),
      ),
      id: `week-${week}`,
    }));
    const services = times(
      random.whole(0, 3),
      (i): Service => ({
        id: `service-${i}`,
        locomotiveId: engine.id,
        fittingId: `f${random.whole(0, count - 1)}`,
        at: outing(random.whole(0, 9), []).startedAt,
        what: "repacked",
      }),
    );
    const care = careOf(engine, recordsOf(engine, steamings), services);
    expect(careSchema.safeParse(careReportOf(care)).error, `seed ${seed}`).toBeUndefined();
    expect(bookSchema.safeParse(bookOf(care)).error, `seed ${seed}`).toBeUndefined();
    expect(careText(care), `seed ${seed}`).not.toMatch(/NaN|Infinity|undefined/);
  }
});
