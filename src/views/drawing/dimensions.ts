import { formatBearing, formatM, type Placement } from './placement.ts';
import { type Projection, projectToSheet, type SheetPoint } from './projection.ts';

/** Dimension lines of a draughtsman's sheet, in metres at full size. */
export type Dimension = LinearDimension | ArcDimension;

export interface LinearDimension {
  readonly kind: 'linear';
  readonly measures: 'horizontal distance' | 'height' | 'offset';
  readonly from: SheetPoint;
  readonly to: SheetPoint;
  /** Where the dimension line stands off the measured points: unit direction on the sheet, square to the line. */
  readonly awayFrom: SheetPoint;
  /** How far the thing itself reaches that way from the measured points: the dimension line stands beyond it. */
  readonly clearM: number;
  readonly valueM: number;
  readonly text: string;
}

/** Angle round the subject on the plan, from the camera's direction to the record's. */
export interface ArcDimension {
  readonly kind: 'arc';
  readonly measures: 'bearing';
  readonly centre: SheetPoint;
  readonly radiusM: number;
  /** Bearings on the plan, radians from down the sheet (+z) toward the right (+x). */
  readonly startRad: number;
  readonly endRad: number;
  readonly valueDeg: number;
  readonly text: string;
}

const TOO_SHORT_M = 0.005;
/** The arc stays well inside the distance that it belongs to. */
const ARC_SHARE = 0.4;
const ARC_LONGEST_M = 0.3;

/** Distance and bearing on the plan; height and offset from the subject on the elevations. */
export function dimensionsOf(
  placement: Placement,
  projection: Projection,
  hull: readonly SheetPoint[] = [],
): Dimension[] {
  const at = projectToSheet(projection, placement.positionM);
  const subject = projectToSheet(projection, placement.subjectM);
  return projection === 'plan'
    ? planDimensions(placement, at, subject)
    : elevationDimensions(placement, at, [subject[0], 0], hull);
}

function planDimensions(placement: Placement, at: SheetPoint, subject: SheetPoint): Dimension[] {
  const { horizontalDistanceM, bearingDeg, cameraBearingRad } = placement;
  if (horizontalDistanceM < TOO_SHORT_M) return [];
  const along: SheetPoint = [(at[0] - subject[0]) / horizontalDistanceM, (at[1] - subject[1]) / horizontalDistanceM];
  // Off to the side away from the camera's axis, where the beam's own centre line is not.
  const outward = (bearingDeg ?? 0) >= 0 ? 1 : -1;
  const linear: LinearDimension = {
    kind: 'linear',
    measures: 'horizontal distance',
    from: subject,
    to: at,
    awayFrom: [along[1] * outward, -along[0] * outward],
    clearM: 0,
    valueM: horizontalDistanceM,
    text: formatM(horizontalDistanceM),
  };
  if (bearingDeg === null) return [linear];
  return [
    linear,
    {
      kind: 'arc',
      measures: 'bearing',
      centre: subject,
      radiusM: Math.min(horizontalDistanceM * ARC_SHARE, ARC_LONGEST_M),
      startRad: cameraBearingRad,
      endRad: cameraBearingRad + (bearingDeg * Math.PI) / 180,
      valueDeg: bearingDeg,
      text: formatBearing(bearingDeg),
    },
  ];
}

function elevationDimensions(
  placement: Placement,
  at: SheetPoint,
  subjectFoot: SheetPoint,
  hull: readonly SheetPoint[],
): Dimension[] {
  const offsetM = at[0] - subjectFoot[0];
  const side = offsetM >= 0 ? 1 : -1;
  const dimensions: Dimension[] = [];
  if (Math.abs(placement.heightM) >= TOO_SHORT_M) {
    dimensions.push({
      kind: 'linear',
      measures: 'height',
      from: [at[0], 0],
      to: at,
      awayFrom: [side, 0],
      clearM: Math.max(0, ...hull.map(([u]) => (u - at[0]) * side)),
      valueM: placement.heightM,
      text: formatM(placement.heightM),
    });
  }
  if (Math.abs(offsetM) >= TOO_SHORT_M) {
    dimensions.push({
      kind: 'linear',
      measures: 'offset',
      from: subjectFoot,
      to: [at[0], 0],
      awayFrom: [0, 1],
      clearM: Math.max(0, ...hull.map(([, v]) => v)),
      valueM: Math.abs(offsetM),
      text: formatM(Math.abs(offsetM)),
    });
  }
  return dimensions;
}
