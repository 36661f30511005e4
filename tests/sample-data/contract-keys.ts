import { z } from "zod";
import { reportSchema } from "../../src/analysis/report-schema.ts";

type Node = {
  properties?: Record<string, Node>;
  items?: Node;
  anyOf?: Node[];
  type?: string;
};

/** One place of the report contract, such as "phases[].steamingRate"; a figure is one with its uncertainty. */
export interface ContractKey {
  path: string;
  isFigure: boolean;
}

/** Every place of the report that can hold something, read off its schema, so that none can be forgotten. */
export function contractKeys(): ContractKey[] {
  const found: ContractKey[] = [];
  const walk = (node: Node, path: string) => {
    const ways = (node.anyOf ?? [node]).filter((way) => way.type !== "null");
    if (ways.some((way) => way.properties?.lo95 !== undefined)) found.push({ path, isFigure: true });
    else if (ways.length === 1 && ways[0]?.items !== undefined) walk(ways[0].items, `${path}[]`);
    else if (ways.length === 1 && ways[0]?.properties !== undefined)
      for (const [name, child] of Object.entries(ways[0].properties))
        walk(child, path === "" ? name : `${path}.${name}`);
    else found.push({ path, isFigure: false });
  };
  walk(z.toJSONSchema(reportSchema) as Node, "");
  return found;
}

/** All that a report holds at a place of the contract; arrays give one for each of theirs. */
export function held(report: unknown, path: string): unknown[] {
  return path.split(".").reduce<unknown[]>(
    (things, step) =>
      things.flatMap((thing) => {
        if (thing === null || typeof thing !== "object") return [];
        const inner = (thing as Record<string, unknown>)[step.replace("[]", "")];
        return step.endsWith("[]") ? ((inner as unknown[] | null) ?? []) : [inner];
      }),
    [report],
  );
}
