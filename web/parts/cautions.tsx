import { CAUTION_SENTENCES } from "../../src/analysis/words/cautions.ts";

/** Said wherever steam may be up. The program records and reckons; it passes no boiler. */
export function Cautions() {
  return (
    <p class="cautions">
      <strong>With steam up:</strong> {CAUTION_SENTENCES.join(" ")} Boiler tests are for your club or
      licensing authority, its code and its inspector; what stands here is reckoned from your entries and
      passes no boiler.
    </p>
  );
}
