import { begunLately, isInSteam } from "../../src/logbook/in-steam.ts";
import type { SteamingHead } from "../../src/logbook/steaming.ts";
import type { App } from "../app-type.ts";
import type { Store } from "../store/store.ts";
import { footplateSchema } from "./shapes.ts";

export function footplateRoutes(api: App, store: Store): void {
  api.get(
    "/footplate",
    {
      schema: {
        summary: "What a recorder must know before it begins a steaming; nothing is reckoned for it",
        response: { 200: footplateSchema },
      },
    },
    async () => {
      const nowMs = Date.now();
      const goesOn = ({ id, startedAt }: SteamingHead) =>
        begunLately(startedAt, nowMs) && isInSteam(startedAt, store.entries.lastS(id), nowMs);
      const engines = store.locomotives.all().map(({ locomotive, demonstration }) => {
        const heads = store.steamings.ofLocomotive(locomotive.id).map(({ head }) => head);
        return {
          locomotive,
          demonstration,
          last: particularsOf(heads.at(-1)),
          inSteam: heads
            .filter(goesOn)
            .map(({ id, title, purpose, startedAt }) => ({ id, title, purpose, startedAt })),
        };
      });
      return { engines };
    },
  );
}

const particularsOf = ({ purpose, conditions, track, train }: Partial<SteamingHead> = {}) => ({
  purpose,
  conditions,
  track,
  train,
});
