/**
 * IAPWS R7-97(2012), Revised Release on the IAPWS Industrial Formulation 1997, verification tables.
 * Tables 5 and 15: K, MPa; v m3/kg, h and u kJ/kg, cp kJ/(kg K), w (speed of sound) m/s. Table 35: K to MPa.
 * Table 36: MPa to K. w is there to check compressibility and expansion, which the tables do not print:
 * w2 = v / (kappa - T v alpha2 / cp).
 */
export const tolerance = 1e-8; // printed to nine digits: half of the last is at most 5e-9

export interface StateRow {
  temperatureK: number;
  pressureMPa: number;
  v: number;
  h: number;
  u: number;
  cp: number;
  w: number;
}

const row = (
  temperatureK: number,
  pressureMPa: number,
  [v, h, u, cp, w]: [number, number, number, number, number],
): StateRow => ({ temperatureK, pressureMPa, v, h, u, cp, w });

export const table5 = [
  row(300, 3, [0.100215168e-2, 0.115331273e3, 0.112324818e3, 0.417301218e1, 0.150773921e4]),
  row(300, 80, [0.971180894e-3, 0.184142828e3, 0.106448356e3, 0.401008987e1, 0.163469054e4]),
  row(500, 3, [0.1202418e-2, 0.975542239e3, 0.971934985e3, 0.465580682e1, 0.124071337e4]),
];

export const table15 = [
  row(300, 0.0035, [0.394913866e2, 0.254991145e4, 0.24116916e4, 0.191300162e1, 0.427920172e3]),
  row(700, 0.0035, [0.923015898e2, 0.333568375e4, 0.301262819e4, 0.208141274e1, 0.644289068e3]),
  row(700, 30, [0.542946619e-2, 0.263149474e4, 0.246861076e4, 0.103505092e2, 0.480386523e3]),
];

export const table35 = [
  { temperatureK: 300, pressureMPa: 0.353658941e-2 },
  { temperatureK: 500, pressureMPa: 0.263889776e1 },
  { temperatureK: 600, pressureMPa: 0.123443146e2 },
];

export const table36 = [
  { pressureMPa: 0.1, temperatureK: 0.372755919e3 },
  { pressureMPa: 1, temperatureK: 0.453035632e3 },
  { pressureMPa: 10, temperatureK: 0.584149488e3 },
];
