import type { Service } from "../logbook/service.ts";
import { serviceWords } from "./words.ts";

/** Services that can only be judged together: nothing was read of the fitting between them. */
export interface Mending {
  services: readonly [Service, ...Service[]];
  /** when the first of them was done, and the last, ms */
  fromMs: number;
  doneMs: number;
}

/**
 * Services of one fitting in order of time, put together where no reading lies between.
 * @param readAtMs moments at which the fitting was caught or looked at
 */
export function mendingsOf(services: readonly Service[], readAtMs: readonly number[]): Mending[] {
  const mendings: Mending[] = [];
  for (const service of services) {
    const atMs = Date.parse(service.at);
    const last = mendings.at(-1);
    if (last === undefined || readAtMs.some((readMs) => readMs >= last.doneMs && readMs < atMs)) {
      mendings.push({ services: [service], fromMs: atMs, doneMs: atMs });
    } else {
      mendings[mendings.length - 1] = { ...last, services: [...last.services, service], doneMs: atMs };
    }
  }
  return mendings;
}

/** "Nipped up 2026-04-20 and repacked 2026-05-02 ...: judged together as one mending. "; nothing for a single service. */
export function togetherInWords({ services }: Mending): string {
  if (services.length === 1) return "";
  const each = services.map(({ what, at }) => `${serviceWords[what]} ${at.slice(0, 10)}`);
  const all = `${each.slice(0, -1).join(", ")} and ${each.at(-1)}`;
  return `${all.replace(/^./, (letter) => letter.toUpperCase())} with nothing caught or looked at between: judged together as one mending. `;
}
