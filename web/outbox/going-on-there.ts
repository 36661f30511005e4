import type { Locomotive } from "../../src/logbook/locomotive.ts";
import { addresses } from "../api/addresses.ts";
import { call } from "../api/client.ts";
import type { Shed, SteamingSummary } from "../api/shapes.ts";
import { begunLately, isInSteam } from "../live/in-steam.ts";
import { serverNowMs } from "./clock.ts";

export interface GoingOnThere {
  head: SteamingSummary;
  engine: Locomotive;
  elsewhere: true;
}

/** Steamings that go on at the server, by whichever device. @throws Refusal */
export async function goingOnThere({ engines }: Shed, patienceMs?: number): Promise<GoingOnThere[]> {
  const nowMs = serverNowMs();
  const lately = engines.flatMap(({ locomotive, steamings }) =>
    steamings
      .filter(({ startedAt }) => begunLately(startedAt, nowMs))
      .map((head) => ({ head, engine: locomotive, elsewhere: true as const })),
  );
  const inSteam = await Promise.all(
    lately.map(async ({ head: { id, startedAt } }) => {
      const { entries } = await call<{ entries: { atS: number }[] }>(
        "GET",
        addresses.steaming(id),
        undefined,
        patienceMs,
      );
      return isInSteam(startedAt, entries, nowMs);
    }),
  );
  return lately.filter((_, i) => inSteam[i]);
}
