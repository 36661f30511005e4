/** What a moment fixes: the pressure the valve lifts at, the one it reseats at, or the top of the readings. */
export type Mark = "lift" | "reseat" | "top";
export interface Moment {
  atS: number;
  mark: Mark;
  /** of a top: what ended the rise there; absent where only the readings say so */
  endedBy?: "fire" | "regulator";
}
