/**
 * Factors of evaporation, Strohm, Boiler and Furnace Testing, US Fuel Administration Bulletin 1, 1918: feed °F, factor
 * at 30, 70 and 100 psig. Within 0.2 %: IF97 stands 0.06 to 0.13 % above the steam tables of that day.
 */
export const strohm = {
  tolerance: 0.002,
  psig: [30, 70, 100],
  rows: [
    { feedFahrenheit: 32, factors: [1.2073, 1.2195, 1.2251] },
    { feedFahrenheit: 50, factors: [1.1887, 1.2009, 1.2064] },
    { feedFahrenheit: 68, factors: [1.1702, 1.1823, 1.1879] },
    { feedFahrenheit: 101, factors: [1.1363, 1.1484, 1.154] },
    { feedFahrenheit: 180, factors: [1.0549, 1.0671, 1.0727] },
    { feedFahrenheit: 212, factors: [1.0218, 1.034, 1.0396] },
  ],
};
