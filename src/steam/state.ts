/** Water or steam at one temperature and pressure. SI; enthalpy and internal energy from liquid at 273.16 K. */
export interface SteamState {
  temperatureK: number;
  pressurePa: number;
  volumeM3PerKg: number;
  enthalpyJPerKg: number;
  internalEnergyJPerKg: number;
  cpJPerKgK: number;
  /** isothermal compressibility, -(dv/dp)/v */
  compressibilityPerPa: number;
  /** isobaric cubic expansion coefficient, (dv/dT)/v */
  expansionPerK: number;
}
