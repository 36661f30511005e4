import { type BuildUp, checkedMm, cleadingRadiusMm, USUAL } from "./build-up.ts";
import { curvedSection, flatSection, type Section } from "./section.ts";
import type { Tank } from "./tanks-schema.ts";
import type { TypedLength } from "./typed-length.ts";

export interface CutOut {
  alongMm: number;
  lengthMm: number;
  upMm: number;
  heightMm: number;
  /** null where it goes right through */
  widthMm: number | null;
}

/** A tank (of a pair: one of the two) with every dimension in mm; heights count from the boiler's centre line, those of a box whose place is not said from its underside. */
export interface TankShape {
  name: string;
  kind: Tank["kind"];
  count: number;
  section: Section;
  plateMm: number;
  /** outside */
  lengthMm: number;
  heightMm: number;
  widthMm: number;
  undersideMm: number;
  /** whether it is said how high it stands */
  isPlaced: boolean;
  cornerRadiusMm: number;
  /** upright corners with that radius */
  corners: number;
  freeboardMm: number | null;
  deadDepthMm: number | null;
  cutOuts: readonly CutOut[];
  /** what pump and pipes take up in one tank, ml */
  displacedMl: number;
  balancePipeMm: number | null;
  /** outer radius of a curved inner sheet, about the boiler's centre; null where the face is flat */
  curvedOnMm: number | null;
  /** inside of the inner sheet where the face is upright, mm from the centre line */
  faceMm: number;
}

export const kindNames: Record<Tank["kind"], string> = {
  "side-pair": "side tanks",
  well: "well tank",
  bunker: "bunker tank",
  tender: "tender tank",
};

/** @returns what has to be known before it can be reckoned, in words, or its shape */
export function tankShapeOf(tank: Tank, up: BuildUp, scale: number): TankShape | string {
  const mm = (typed: TypedLength) => checkedMm(typed, scale);
  const orNone = (typed: TypedLength | undefined) => (typed === undefined ? null : mm(typed));
  const plateMm = tank.plate === undefined ? USUAL.plate : mm(tank.plate);
  const heightMm = mm(tank.height);
  const baseMm = "base" in tank ? orNone(tank.base) : null;
  const undersideMm = baseMm ?? 0;
  const faces =
    tank.kind === "side-pair"
      ? sideFaces(tank, up, scale, plateMm, undersideMm, heightMm)
      : boxFaces(mm(tank.width), plateMm);
  if (typeof faces === "string") return faces;
  const pipesMl = (tank.pipes ?? []).reduce(
    (sum, pipe) =>
      sum + ((Math.PI / 4) * mm(pipe.diameter) ** 2 * mm(pipe.length) * (pipe.count ?? 1)) / 1000,
    0,
  );
  return {
    name: tank.name ?? kindNames[tank.kind],
    kind: tank.kind,
    count: tank.kind === "side-pair" ? 2 : 1,
    ...faces,
    plateMm,
    lengthMm: mm(tank.length),
    heightMm,
    undersideMm,
    isPlaced: baseMm !== null,
    cornerRadiusMm: orNone(tank.cornerRadius) ?? 0,
    corners: tank.kind === "side-pair" ? 2 : 4,
    freeboardMm: orNone(tank.freeboard),
    deadDepthMm: orNone(tank.deadDepth),
    cutOuts: (tank.cutOuts ?? []).map((cut) => ({
      alongMm: mm(cut.along),
      lengthMm: mm(cut.length),
      upMm: mm(cut.up),
      heightMm: mm(cut.height),
      widthMm: orNone(cut.width),
    })),
    displacedMl: (tank.pumpBodyMl ?? 0) + pipesMl,
    balancePipeMm: tank.kind === "side-pair" ? orNone(tank.balancePipe) : null,
  };
}

type Faces = Pick<TankShape, "section" | "widthMm" | "curvedOnMm" | "faceMm">;

function boxFaces(widthMm: number, plateMm: number): Faces {
  return {
    section: flatSection(plateMm, widthMm - plateMm),
    widthMm,
    curvedOnMm: null,
    faceMm: plateMm,
  };
}

function sideFaces(
  tank: Extract<Tank, { kind: "side-pair" }>,
  up: BuildUp,
  scale: number,
  plateMm: number,
  undersideMm: number,
  heightMm: number,
): Faces | string {
  if (up.gaugeMm === null) return "give the loading gauge (its whole width)";
  if (up.boilerRadiusMm === null)
    return "give the boiler's outside diameter, with the space or with the engine";
  const outsideMm = up.gaugeMm / 2 - up.plateworkMm - up.rivetsMm;
  const onMm = cleadingRadiusMm(up) + up.clearanceMm;
  const topMm = undersideMm + heightMm;
  const closestMm = Math.min(topMm, Math.max(undersideMm, 0));
  const uprightAt = (faceMm: number): Faces => ({
    section: flatSection(faceMm + plateMm, outsideMm - plateMm),
    widthMm: outsideMm - faceMm,
    curvedOnMm: null,
    faceMm: faceMm + plateMm,
  });
  if (tank.innerFace === "curved") {
    const nearestMm = tank.nearest === undefined ? cleadingRadiusMm(up) / 2 : checkedMm(tank.nearest, scale);
    // no nearer than the cleading comes anyhow: nothing of the arc is left
    if (nearestMm >= onMm) return uprightAt(nearestMm);
    const section = curvedSection(onMm + plateMm, nearestMm + plateMm, outsideMm - plateMm);
    const innermost = Math.min(
      section.innerMm(undersideMm),
      section.innerMm(topMm),
      section.innerMm(closestMm),
    );
    return {
      section,
      widthMm: outsideMm - (innermost - plateMm),
      curvedOnMm: onMm,
      faceMm: nearestMm + plateMm,
    };
  }
  return uprightAt(Math.sqrt(Math.max(0, onMm ** 2 - closestMm ** 2)));
}
