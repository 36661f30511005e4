import { z } from "zod";
import { identifier } from "../../src/logbook/bounds.ts";
import { modelsOf } from "../../src/sizing/models.ts";
import { type Plan, planSchema } from "../../src/sizing/plan-schema.ts";
import { runFiguresSchema } from "../../src/sizing/run-figures-schema.ts";
import { sizeUp } from "../../src/sizing/size.ts";
import { sizingSchema } from "../../src/sizing/sizing-schema.ts";
import type { App } from "../app-type.ts";
import { ApiError, invalid } from "../errors.ts";
import type { Reports } from "../reports.ts";
import { runFiguresIn } from "../run-figures.ts";
import type { Store } from "../store/store.ts";
import { noSuchLocomotive } from "./locomotives.ts";
import { errorSchema, idInAddress, nothing } from "./shapes.ts";

const planInAddress = z.strictObject({ id: identifier, name: identifier });

export function sizingRoutes(api: App, store: Store, reports: Reports): void {
  const runFigures = runFiguresIn(store, reports);
  const engineOf = (id: string) => {
    const kept = store.locomotives.get(id);
    if (kept === undefined) throw noSuchLocomotive(id);
    return kept.locomotive;
  };

  api.post(
    "/sizing",
    {
      schema: {
        summary: "Tanks for a plan, from measured runs",
        body: planSchema,
        response: { 200: sizingSchema, "4xx": errorSchema },
      },
    },
    async (request) => {
      const plan = request.body;
      const locomotive = engineOf(plan.locomotiveId);
      checkSteamings(store, plan);
      return sizeUp(locomotive, plan, modelsOf(runFigures(locomotive.id), plan)).sizing;
    },
  );

  api.get(
    "/locomotives/:id/run-figures",
    {
      schema: {
        summary: "What each steaming of an engine tells of water and fuel a lap, a minute and a metre",
        params: idInAddress,
        response: { 200: z.array(runFiguresSchema), "4xx": errorSchema },
      },
    },
    async (request) => runFigures(engineOf(request.params.id).id),
  );

  api.get(
    "/locomotives/:id/plans",
    {
      schema: {
        summary: "Plans of tanks kept for an engine",
        params: idInAddress,
        response: {
          200: z.array(z.strictObject({ name: identifier, plan: planSchema })),
          "4xx": errorSchema,
        },
      },
    },
    async (request) => store.plans.ofLocomotive(engineOf(request.params.id).id),
  );

  api.get(
    "/locomotives/:id/plans/:name",
    {
      schema: {
        summary: "One plan of tanks",
        params: planInAddress,
        response: { 200: planSchema, "4xx": errorSchema },
      },
    },
    async (request) => {
      const { id, name } = request.params;
      const plan = store.plans.get(engineOf(id).id, name);
      if (plan === undefined) throw noSuchPlan(name);
      return plan;
    },
  );

  api.put(
    "/locomotives/:id/plans/:name",
    {
      schema: {
        summary: "Keeps a plan of tanks in place of the one of that name, if any",
        params: planInAddress,
        body: planSchema,
        response: { 200: planSchema, 201: planSchema, "4xx": errorSchema },
      },
    },
    async (request, reply) => {
      const { id, name } = request.params;
      engineOf(id);
      const came = request.body.locomotiveId;
      if (came !== id)
        throw invalid([{ path: "locomotiveId", came, wanted: `${id}, the id in the address` }]);
      const kept = store.plans.put(name, request.body);
      return reply.status(kept === "added" ? 201 : 200).send(request.body);
    },
  );

  api.delete(
    "/locomotives/:id/plans/:name",
    {
      schema: {
        summary: "Removes a plan of tanks",
        params: planInAddress,
        response: { 204: nothing, "4xx": errorSchema },
      },
    },
    async (request, reply) => {
      const { id, name } = request.params;
      if (!store.plans.remove(engineOf(id).id, name)) throw noSuchPlan(name);
      return reply.status(204).send(null);
    },
  );
}

const noSuchPlan = (name: string): ApiError => new ApiError("no-such-plan", `there is no plan ${name}`);

/** @throws ApiError where a chosen steaming is not one of the engine's */
function checkSteamings(store: Store, plan: Plan): void {
  const own = new Set(store.steamings.ofLocomotive(plan.locomotiveId).map(({ head }) => head.id));
  const strangers = (plan.steamings ?? []).flatMap((id, i) =>
    own.has(id) ? [] : [{ path: `steamings[${i}]`, came: id, wanted: `a steaming of ${plan.locomotiveId}` }],
  );
  if (strangers.length > 0) throw invalid(strangers);
}
