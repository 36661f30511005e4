import type { Locomotive } from "./locomotive.ts";
import { type LogbookFile, logbookFileSchema } from "./logbook-file.ts";
import { type Problem, problemsOf } from "./problems.ts";

export type Reading<T> = { ok: true; value: T } | { ok: false; problems: Problem[] };

/**
 * A logbook file from its text: JSON, then the format, then what refers to what.
 * @param known locomotives that may be referred to though the file does not hold them (a server's own)
 */
export function readLogbook(text: string, known: readonly Locomotive[] = []): Reading<LogbookFile> {
  let input: unknown;
  try {
    input = JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch (error) {
    const detail = error instanceof Error ? error.message : String(error);
    return {
      ok: false,
      problems: [{ path: "(the whole)", came: `a text that is not JSON (${detail})`, wanted: "JSON" }],
    };
  }
  return checkLogbook(input, known);
}

/** The same from a value that is parsed already. */
export function checkLogbook(input: unknown, known: readonly Locomotive[] = []): Reading<LogbookFile> {
  const parsed = logbookFileSchema.safeParse(input);
  if (!parsed.success) return { ok: false, problems: problemsOf(parsed.error, input) };
  const problems = referenceProblems(parsed.data, known);
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: parsed.data };
}

function referenceProblems(file: LogbookFile, known: readonly Locomotive[]): Problem[] {
  const problems: Problem[] = [];
  const engines = new Map([...known, ...file.locomotives].map((engine) => [engine.id, engine]));

  const mustDiffer = (ids: readonly (string | undefined)[], where: (index: number) => string) => {
    const seen = new Set<string>();
    ids.forEach((id, index) => {
      if (id === undefined) return;
      if (seen.has(id))
        problems.push({ path: where(index), came: `${id} a second time`, wanted: "an id used once" });
      seen.add(id);
    });
  };
  mustDiffer(
    file.locomotives.map((engine) => engine.id),
    (i) => `locomotives[${i}].id`,
  );
  mustDiffer(
    file.steamings.map((steaming) => steaming.id),
    (i) => `steamings[${i}].id`,
  );
  mustDiffer(
    file.services.map((service) => service.id),
    (i) => `services[${i}].id`,
  );
  file.locomotives.forEach((engine, e) => {
    mustDiffer(
      engine.fittings.map((fitting) => fitting.id),
      (i) => `locomotives[${e}].fittings[${i}].id`,
    );
  });

  const engineProblem = (path: string, id: string): Problem => ({
    path,
    came: id,
    wanted:
      engines.size === 0
        ? "a locomotive of this file (it has none)"
        : `one of ${[...engines.keys()].slice(0, 8).join(", ")}`,
  });
  const fittingProblem = (path: string, id: string, engine: Locomotive): Problem => ({
    path,
    came: id,
    wanted: `a fitting of ${engine.id}: ${engine.fittings.map((fitting) => fitting.id).join(", ") || "it has none"}`,
  });

  file.steamings.forEach((steaming, s) => {
    const engine = engines.get(steaming.locomotiveId);
    if (engine === undefined) {
      problems.push(engineProblem(`steamings[${s}].locomotiveId`, steaming.locomotiveId));
      return;
    }
    mustDiffer(
      steaming.entries.map((entry) => entry.id),
      (i) => `steamings[${s}].entries[${i}].id`,
    );
    const fittings = new Set(engine.fittings.map((fitting) => fitting.id));
    steaming.entries.forEach((entry, i) => {
      if ((entry.kind === "drip" || entry.kind === "look") && !fittings.has(entry.fitting)) {
        problems.push(fittingProblem(`steamings[${s}].entries[${i}].fitting`, entry.fitting, engine));
      }
    });
  });
  file.services.forEach((service, i) => {
    const engine = engines.get(service.locomotiveId);
    if (engine === undefined)
      problems.push(engineProblem(`services[${i}].locomotiveId`, service.locomotiveId));
    else if (!engine.fittings.some((fitting) => fitting.id === service.fittingId)) {
      problems.push(fittingProblem(`services[${i}].fittingId`, service.fittingId, engine));
    }
  });
  return problems;
}
