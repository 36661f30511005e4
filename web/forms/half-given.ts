import type { Problem } from "../../src/logbook/problems.ts";
import { type Draft, valueAt } from "./draft.ts";

/** Of each group of a steaming's particulars, what must be given once anything of it is. */
const groups = {
  conditions: ["ambientC", "feedC"],
  track: ["lapM"],
  train: ["massKg"],
} as const;

/** Particulars that are given by half: the server would refuse them, perhaps hours later. */
export const halfGiven = (draft: Draft): Problem[] =>
  Object.entries(groups).flatMap(([group, needed]) =>
    valueAt(draft, group) === undefined
      ? []
      : needed
          .map((name) => `${group}.${name}`)
          .filter((path) => valueAt(draft, path) === undefined)
          .map((path) => ({ path, came: "nothing", wanted: "a figure, as something beside it is given" })),
  );
