import type { Plan } from "../../src/sizing/plan-schema.ts";
import type { Connection } from "./connection.ts";
import { sameContent } from "./same-content.ts";

export interface KeptPlan {
  name: string;
  plan: Plan;
}

/** Plans of tanks, kept by name for each engine; they go with their engine. */
export function plansIn(database: Connection) {
  const ofLocomotive = database.prepare<[string], { name: string; body: string }>(
    "SELECT name, body FROM plans WHERE locomotive_id = ? ORDER BY name",
  );
  const one = database
    .prepare<[string, string], string>("SELECT body FROM plans WHERE locomotive_id = ? AND name = ?")
    .pluck();
  const put = database.prepare<[string, string, string]>(
    `INSERT INTO plans (locomotive_id, name, body) VALUES (?, ?, ?)
     ON CONFLICT (locomotive_id, name) DO UPDATE SET body = excluded.body`,
  );
  const remove = database.prepare<[string, string]>("DELETE FROM plans WHERE locomotive_id = ? AND name = ?");
  return {
    ofLocomotive: (locomotiveId: string): KeptPlan[] =>
      ofLocomotive.all(locomotiveId).map(({ name, body }) => ({ name, plan: JSON.parse(body) as Plan })),
    get(locomotiveId: string, name: string): Plan | undefined {
      const body = one.get(locomotiveId, name) as string | undefined;
      return body === undefined ? undefined : (JSON.parse(body) as Plan);
    },
    /** Keeps a plan in place of the one of that name, if any. */
    put: database.transaction((name: string, plan: Plan): "added" | "replaced" | "same" => {
      const kept = one.get(plan.locomotiveId, name) as string | undefined;
      if (kept !== undefined && sameContent(kept, plan)) return "same";
      put.run(plan.locomotiveId, name, JSON.stringify(plan));
      return kept === undefined ? "added" : "replaced";
    }),
    /** False where there is none. */
    remove: (locomotiveId: string, name: string): boolean => remove.run(locomotiveId, name).changes > 0,
  };
}
export type Plans = ReturnType<typeof plansIn>;
