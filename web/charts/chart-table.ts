/** What a chart shows, in figures. */
export interface ChartTable {
  columns: readonly string[];
  rows: readonly (readonly string[])[];
}
