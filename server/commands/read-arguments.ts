import { parseArgs } from "node:util";

/** The command line of a command: its files in order, and each option with its value ("" for one that takes none). */
export interface Arguments {
  files: string[];
  options: Map<string, string>;
}

/**
 * Reads files and options, a value with a minus sign too.
 * @param takesValue by the name of each option, whether a value follows it
 * @returns one line that says what came and what is wanted, where the arguments are not right
 */
export function readArguments(
  args: readonly string[],
  takesValue: Readonly<Record<string, boolean>>,
): Arguments | string {
  const { tokens, positionals } = parseArgs({
    args: [...args],
    strict: false,
    tokens: true,
    options: Object.fromEntries(
      Object.entries(takesValue).map(([name, takes]) => [name, { type: takes ? "string" : "boolean" }]),
    ),
  });
  const options = new Map<string, string>();
  for (const token of tokens) {
    if (token.kind !== "option") continue;
    const { name, rawName, value = "" } = token;
    const takes = takesValue[name];
    if (takes === undefined) {
      const known = Object.keys(takesValue).map((one) => `--${one}`);
      return `${rawName}: came an unknown option; wanted ${known.join(" or ")}`;
    }
    if (takes && (value.trim() === "" || value.startsWith("--")))
      return `${rawName}: came without a value; wanted one`;
    if (!takes && value !== "") return `${rawName}: came with ${value}; wanted no value`;
    options.set(name, value);
  }
  return { files: positionals, options };
}
