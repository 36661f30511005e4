import type { z } from "zod";

/** One thing wrong with what was given: where, what came, and what is wanted. */
export interface Problem {
  path: string;
  came: string;
  wanted: string;
}

type Path = readonly PropertyKey[];

/** `steamings[0].entries[3].barG` */
export function pathInWords(path: Path): string {
  let text = "";
  for (const step of path) {
    if (typeof step === "number") text += `[${step}]`;
    else text += `${text === "" ? "" : "."}${plain(String(step))}`;
  }
  return text === "" ? "(the whole)" : text;
}

/** A key as it is, or quoted where it would break the line. */
const plain = (key: string): string => (/^[\w$ -]+$/u.test(key) ? key : JSON.stringify(key));

function valueAt(input: unknown, path: Path): unknown {
  let value = input;
  for (const step of path) {
    if (value === null || typeof value !== "object") return undefined;
    value = (value as Record<PropertyKey, unknown>)[step];
  }
  return value;
}

/** What came, short enough for one line. */
export function inWords(value: unknown): string {
  if (value === undefined) return "nothing";
  if (value === null) return "null";
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === "object")
    return `an object with ${Object.keys(value).slice(0, 6).join(", ") || "no keys"}`;
  if (typeof value === "string") {
    const short = value.length > 40 ? `${value.slice(0, 40)}...` : value;
    return `the text ${JSON.stringify(short)}`;
  }
  return String(value);
}

const typeNames: Record<string, string> = {
  string: "a text",
  number: "a number",
  int: "a whole number",
  boolean: "true or false",
  array: "a list",
  object: "an object",
};

function wantedByTrial(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case "invalid_type":
      return typeNames[issue.expected] ?? issue.expected;
    case "too_small":
      return `${sizeOf(issue.origin)}${issue.inclusive === false ? "more than" : "at least"} ${issue.minimum}`;
    case "too_big":
      return `${sizeOf(issue.origin)}${issue.inclusive === false ? "less than" : "at most"} ${issue.maximum}`;
    case "invalid_value":
      return issue.values.length === 1
        ? JSON.stringify(issue.values[0])
        : `one of ${issue.values.map((value) => JSON.stringify(value)).join(", ")}`;
    case "invalid_format":
      return issue.format === "datetime"
        ? "a moment with its offset, such as 2026-03-14T10:14:00+01:00"
        : issue.message;
    case "invalid_union":
      return "note" in issue && issue.note === "No matching discriminator"
        ? unionChoices(issue)
        : "one of the shapes that the format names";
    default:
      return issue.message;
  }
}

function unionChoices(issue: z.core.$ZodIssue): string {
  const options = (issue as { options?: readonly unknown[] }).options;
  return options === undefined
    ? "a kind that the format knows"
    : `one of ${options.map((option) => JSON.stringify(option)).join(", ")}`;
}

function sizeOf(origin: string): string {
  if (origin === "string") return "a text with a length of ";
  if (origin === "array") return "a list with a length of ";
  return "a number of ";
}

/** Every problem zod found, in our words. `input` is what was parsed. */
export function problemsOf(error: z.ZodError, input: unknown): Problem[] {
  return error.issues.flatMap((issue): Problem[] => {
    if (issue.code === "unrecognized_keys") {
      const holder = valueAt(input, issue.path);
      return issue.keys.map((key) => ({
        path: pathInWords([...issue.path, key]),
        came: `an unknown key with ${inWords(valueAt(holder, [key]))}`,
        wanted: "only keys that the format names",
      }));
    }
    return [
      {
        path: pathInWords(issue.path),
        came: inWords(valueAt(input, issue.path)),
        wanted: wantedByTrial(issue),
      },
    ];
  });
}

/** One line a problem. */
export const problemLine = (problem: Problem): string =>
  `${problem.path}: came ${problem.came}; wanted ${problem.wanted}`;
