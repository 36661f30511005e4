import { expect, test } from "vitest";
import { savedInWords, takeOffInWords } from "../../src/care/job-words.ts";
import { jobsOf, type Need } from "../../src/care/jobs.ts";

const need = (id: string, state: Need["state"], access: string[], known = true): Need => ({
  fitting: { id, name: id, kind: "gland", ...(access.length === 0 ? {} : { access }) },
  state,
  known,
});

test("fittings that share a part are one job, and the parts stand once", () => {
  const jobs = jobsOf([
    need("regulator", "attend", ["cab roof", "dome"]),
    need("regulator gland", "attend", ["cab roof"]),
    need("left gland", "attend", ["left slide bars"]),
  ]);
  expect(jobs.map(({ takeOff, do: fix }) => ({ takeOff, fix }))).toEqual([
    { takeOff: ["cab roof", "dome"], fix: ["regulator", "regulator gland"] },
    { takeOff: ["left slide bars"], fix: ["left gland"] },
  ]);
  // three parts to take off singly, two together
  expect(jobs[0]).toMatchObject({ hoursSaved: 0.5, outingsSaved: 1 });
});

test("a fitting that joins two groups makes one job of them", () => {
  const jobs = jobsOf([
    need("a", "attend", ["dome"]),
    need("b", "attend", ["cab roof"]),
    need("c", "attend", ["dome", "cab roof"]),
  ]);
  expect(jobs).toHaveLength(1);
  expect(jobs[0]?.do).toEqual(["a", "b", "c"]);
});

test("watched fittings behind the same parts are worth doing; those behind others, or of which nothing is known, are not", () => {
  const [job] = jobsOf([
    need("regulator", "attend", ["cab roof", "dome"]),
    need("turret", "watch", ["cab roof"]),
    need("lubricator", "watch", ["cab roof", "smokebox door"]),
    need("glass", "watch", ["cab roof"], false),
    need("whistle", "watch", []),
    need("safety valve", "sound", ["dome"]),
  ]);
  expect(job?.alsoWorth).toEqual(["turret"]);
});

test("nothing in need is no job", () => {
  expect(jobsOf([need("turret", "watch", ["cab roof"])])).toEqual([]);
});

test("a part written otherwise, by its capitals or a space, is the same part", () => {
  const jobs = jobsOf([
    need("regulator", "attend", ["Dome", "cab  roof"]),
    need("turret", "attend", ["dome "]),
    need("whistle", "watch", ["Cab roof"]),
  ]);
  expect(jobs).toHaveLength(1);
  expect(jobs[0]).toMatchObject({
    takeOff: ["Dome", "cab  roof"],
    do: ["regulator", "turret"],
    alsoWorth: ["whistle"],
    // four parts singly, two together
    hoursSaved: 1,
    outingsSaved: 2,
  });
});

test("that nothing must come off is said only where somebody said so", () => {
  const fitting = { id: "gland", name: "Gland", kind: "gland" as const };
  const words = (access?: string[]) => {
    const [job] = jobsOf([
      { fitting: { ...fitting, ...(access && { access }) }, state: "attend", known: true },
    ]);
    return job && takeOffInWords(job);
  };
  expect(words()).toBe("what must come off is not said");
  expect(words([])).toBe("nothing to take off");
  expect(words(["dome"])).toBe("take off dome");
});

test("what doing it together saves is told in one and in several layings-up", () => {
  expect(savedInWords({ hoursSaved: 0, outingsSaved: 0 })).toBe("");
  expect(savedInWords({ hoursSaved: 0.5, outingsSaved: 1 })).toMatch(
    /about 0\.5 h .* and 1 later laying-up\.$/,
  );
  expect(savedInWords({ hoursSaved: 1.5, outingsSaved: 3 })).toMatch(/ and 3 later layings-up\.$/);
});
