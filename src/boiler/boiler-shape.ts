/** What the geometry needs to know of a boiler: the logbook's record of one fits. Absent and undefined are alike. */
export interface ShapedBoiler {
  shape: BoilerShape;
  /** height of the glass's zero above the lowest inside point; 0 if absent; not for a table */
  glassZeroMm?: number | undefined;
}

export type BoilerShape = HorizontalShape | VerticalShape | TableShape;

export interface HorizontalShape {
  kind: "horizontal";
  innerDiameterMm: number;
  innerLengthMm: number;
  /** centreHeightMm: above the lowest inside point of the shell */
  tubes?: readonly { outerDiameterMm: number; count: number; centreHeightMm: number }[] | undefined;
}

export interface VerticalShape {
  kind: "vertical";
  innerDiameterMm: number;
  innerHeightMm: number;
  tubes?: readonly { outerDiameterMm: number; count: number }[] | undefined;
}

export interface TableShape {
  kind: "table";
  /** readings of the glass, rising, and the water then in the boiler */
  points: readonly { levelMm: number; waterMl: number }[];
  totalMl: number;
}
