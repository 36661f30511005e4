import type { Config } from "../config.ts";
import type { PairingCodes } from "../pairing/codes.ts";
import type { Reports } from "../reports.ts";
import type { Store } from "../store/store.ts";

/** What the routes work with. */
export interface Parts {
  config: Config;
  codes: PairingCodes;
  store: Store;
  reports: Reports;
  /** the demonstration's logbook file */
  demonstration: string;
}
