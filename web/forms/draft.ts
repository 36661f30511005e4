/** What a form holds: the JSON that will be sent, edited by path ("boiler.shape.tubes.0.count"). The server judges it. */
export interface Draft {
  readonly [key: string]: unknown;
}

type Holder = Record<string, unknown> | unknown[];
const isHolder = (value: unknown): value is Holder => value !== null && typeof value === "object";

export function valueAt(draft: unknown, path: string): unknown {
  let value = draft;
  for (const step of path.split(".")) {
    if (!isHolder(value)) return undefined;
    value = (value as Record<string, unknown>)[step];
  }
  return value;
}

/** A copy with the value at the path; `undefined` takes the key out, and an object that it leaves empty as well. */
export function withValue(draft: Draft, path: string, value: unknown): Draft {
  const changed = placed(draft, path.split("."), value);
  return isHolder(changed) && !Array.isArray(changed) ? changed : {};
}

function placed(holder: unknown, steps: readonly string[], value: unknown): unknown {
  const [step, ...rest] = steps;
  if (step === undefined) return value;
  const inner = isHolder(holder) ? (holder as Record<string, unknown>)[step] : undefined;
  const next = placed(inner, rest, value);
  if (Array.isArray(holder)) {
    const copy = [...holder];
    if (next === undefined) copy.splice(Number(step), 1);
    else copy[Number(step)] = next;
    return copy;
  }
  const copy: Record<string, unknown> = { ...(isHolder(holder) ? holder : {}) };
  if (next === undefined) delete copy[step];
  else copy[step] = next;
  return Object.keys(copy).length === 0 ? undefined : copy;
}

/** The server's way of writing a path ("fittings[2].name") as the form's ("fittings.2.name"). */
export const formPath = (path: string): string => path.replace(/\[(\d+)\]/g, ".$1");
