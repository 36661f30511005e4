/**
 * Conversions between the units people read and those reckoned in. Every factor is exact by definition:
 * pound, yard and UK gallon (160 fl oz) by the Weights and Measures Act 1985 (UK), Schedule 1; US fluid ounce
 * (1/128 of 231 cubic inches), standard gravity and Celsius by NIST SP 811 (2008), Appendix B.
 */
const KG_PER_POUND = 0.45359237;
const M_PER_INCH = 0.0254;
const STANDARD_GRAVITY_M_PER_S2 = 9.80665;
const PA_PER_BAR = 1e5;
const PA_PER_PSI = (KG_PER_POUND * STANDARD_GRAVITY_M_PER_S2) / M_PER_INCH ** 2;
const BAR_PER_PSI = PA_PER_PSI / PA_PER_BAR;
const ML_PER_UK_FLUID_OUNCE = 4546.09 / 160;
const ML_PER_US_FLUID_OUNCE = (231 * (M_PER_INCH * 100) ** 3) / 128;
const MM_PER_INCH = M_PER_INCH * 1000;
const G_PER_OUNCE = (KG_PER_POUND * 1000) / 16;
const M_PER_FOOT = M_PER_INCH * 12;
const ZERO_CELSIUS_K = 273.15;

export const barFromPsi = (psi: number): number => psi * BAR_PER_PSI;
export const psiFromBar = (bar: number): number => bar / BAR_PER_PSI;

export const paFromBar = (bar: number): number => bar * PA_PER_BAR;
export const barFromPa = (pa: number): number => pa / PA_PER_BAR;
export const paFromPsi = (psi: number): number => psi * PA_PER_PSI;
export const psiFromPa = (pa: number): number => pa / PA_PER_PSI;

export const mlFromUkFluidOunces = (ounces: number): number => ounces * ML_PER_UK_FLUID_OUNCE;
export const ukFluidOuncesFromMl = (ml: number): number => ml / ML_PER_UK_FLUID_OUNCE;
export const mlFromUsFluidOunces = (ounces: number): number => ounces * ML_PER_US_FLUID_OUNCE;
export const usFluidOuncesFromMl = (ml: number): number => ml / ML_PER_US_FLUID_OUNCE;

export const mmFromInches = (inches: number): number => inches * MM_PER_INCH;
export const inchesFromMm = (mm: number): number => mm / MM_PER_INCH;
export const mFromFeet = (feet: number): number => feet * M_PER_FOOT;
export const feetFromM = (m: number): number => m / M_PER_FOOT;

export const gFromOunces = (ounces: number): number => ounces * G_PER_OUNCE;
export const ouncesFromG = (g: number): number => g / G_PER_OUNCE;
export const kgFromPounds = (pounds: number): number => pounds * KG_PER_POUND;
export const poundsFromKg = (kg: number): number => kg / KG_PER_POUND;

export const celsiusFromFahrenheit = (fahrenheit: number): number => (fahrenheit - 32) / 1.8;
export const fahrenheitFromCelsius = (celsius: number): number => celsius * 1.8 + 32;
export const kelvinFromCelsius = (celsius: number): number => celsius + ZERO_CELSIUS_K;
export const celsiusFromKelvin = (kelvin: number): number => kelvin - ZERO_CELSIUS_K;
