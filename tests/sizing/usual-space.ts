/**
 * Space about a boiler of 50 mm, as lengths that are usual (common practice): the cleading's outside is
 * 25 + 1 + 0.3 + 0.2 = 26.5 mm from the middle, a tank's inner face 27.5 mm, its outer face 45 mm.
 */
export const space = {
  boilerOuterDiameter: 50,
  lagging: 1,
  cleading: 0.3,
  band: 0.2,
  clearance: 1,
  loadingGauge: 90,
};
