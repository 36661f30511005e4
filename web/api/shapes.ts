import type { Logged } from "../../src/analysis/pressure/logged.ts";
import type { Report } from "../../src/analysis/report-schema.ts";
import type { Series } from "../../src/analysis/series.ts";
import type { Particulars } from "../../src/analysis/words/particulars.ts";
import type { Entry } from "../../src/logbook/entry.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { Problem } from "../../src/logbook/problems.ts";
import type { SteamingHead } from "../../src/logbook/steaming.ts";
import type { Reported } from "../../src/quantity/reported.ts";

/** What the server answers, as the pages read it. */

export interface SteamingSummary {
  id: string;
  locomotiveId: string;
  title?: string;
  purpose: SteamingHead["purpose"];
  startedAt: string;
  entries: number;
  laps: number;
  figures: Record<"steamingRate" | "waterPerLap" | "fuelPerLap" | "efficiency", Reported>;
}

export interface Shed {
  engines: { locomotive: Locomotive; demonstration: boolean; steamings: SteamingSummary[] }[];
  demonstrationOffered: boolean;
}

/** What the server tells a recorder before it begins a steaming. */
export interface FootplateAnswer {
  engines: {
    locomotive: Locomotive;
    demonstration: boolean;
    /** particulars of her latest steaming */
    last: Partial<Pick<SteamingHead, "conditions" | "track" | "train" | "purpose">>;
    /** steamings that go on, by whichever device */
    inSteam: Pick<SteamingHead, "id" | "title" | "purpose" | "startedAt">[];
  }[];
}

/** What an entry said until it was corrected or deleted. */
export interface FormerEntry {
  entryId: string;
  what: "corrected" | "deleted";
  former: Entry | null;
  at: string;
}

export interface Sheet extends Particulars {
  steaming: SteamingHead;
  locomotive: Locomotive;
  report: Report;
  series: Series;
  entries: Entry[];
  logged: Logged[];
  /** the oldest first */
  history: FormerEntry[];
}

interface ImportCount {
  added: number;
  same: number;
  differs: number;
}

export interface ImportOutcome {
  locomotives: ImportCount;
  steamings: ImportCount;
  entries: ImportCount & { deleted: number };
  services: ImportCount;
  problems: Problem[];
}

export interface Device {
  id: string;
  name: string;
  may: "record" | "view";
  pairedAt: string;
}

export interface PairingCode {
  code: string;
  expiresAt: string;
  /** where the device finds the server */
  address: string;
  /** the page there that pairs, with the code filled in */
  link: string;
}

export interface Backup {
  /** the whole path on the server's machine */
  file: string;
  bytes: number;
}
