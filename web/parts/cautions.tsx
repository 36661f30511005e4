/** Said wherever steam may be up. The program records and reckons; it passes no boiler. */
export function Cautions() {
  return (
    <p class="cautions">
      <strong>With steam up:</strong> never above working pressure. Never plug or screw down a safety valve.
      Never rely on a forecast: look at the glass. Let the fire finish before the water. Gas and spirit away
      from flame. Mind eyes and hands. Boiler tests are for your club or licensing authority, its code and its
      inspector; what stands here is reckoned from your entries and passes no boiler.
    </p>
  );
}
