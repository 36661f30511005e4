import { useEffect, useRef } from "preact/hooks";
import type { Plan } from "../../../src/sizing/plan-schema.ts";
import { typedProblems } from "../../../src/sizing/typed-plan.ts";
import type { Draft } from "../../forms/draft.ts";
import { keep, kept } from "../../preferences/kept.ts";

const place = (engineId: string): string => `bench.${engineId}`;

/** The plan as this browser left it, under the name it then had; null where there is none that can be reckoned. */
export function leftPlan(engineId: string): { draft: Draft; name: string } | null {
  const [text = "", name = ""] = kept(place(engineId));
  try {
    const draft: unknown = JSON.parse(text);
    const isOwn = (draft as Partial<Plan> | null)?.locomotiveId === engineId;
    return isOwn && typedProblems(draft).length === 0 ? { draft: draft as Draft, name } : null;
  } catch {
    return null;
  }
}

/** Keeps the plan when the page is left or put out of sight, so that it goes on where it was; nothing while sliders move. */
export function useLeaving(plan: Plan, name: string): void {
  const latest = useRef({ plan, name });
  latest.current = { plan, name };
  useEffect(() => {
    const leave = () =>
      keep(place(latest.current.plan.locomotiveId), [
        JSON.stringify(latest.current.plan),
        latest.current.name,
      ]);
    const events = ["pagehide", "visibilitychange"] as const;
    for (const event of events) addEventListener(event, leave);
    return () => {
      for (const event of events) removeEventListener(event, leave);
      leave();
    };
  }, []);
}
