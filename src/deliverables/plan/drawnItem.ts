import type { SheetPoint } from '../../scene/outline.ts';

/** From the lightest construction line to the thick edge of an emitting face. */
export type LineWeight = 'hair' | 'thin' | 'medium' | 'heavy' | 'face';
export type Dash = 'dashed' | 'chain';

/** One line in metres at full size: u to the right of the sheet, v down it. */
export interface DrawnLine {
  readonly pointsM: readonly SheetPoint[];
  readonly closed: boolean;
  readonly weight: LineWeight;
  readonly dash?: Dash;
}

/** How one record is drawn from one side. */
export interface DrawnItem {
  readonly recordId: string;
  readonly kind: 'piece' | 'turntable' | 'fixture' | 'grip' | 'camera';
  readonly name: string;
  readonly lines: readonly DrawnLine[];
  /** Convex outline of the thing itself, without its axis or its field of view. */
  readonly hullM: readonly SheetPoint[];
  /** Backdrops and tables: others stand on or before them. */
  readonly isGround: boolean;
}

export interface BoundsM {
  readonly min: SheetPoint;
  readonly max: SheetPoint;
}

export function boundsOf(points: readonly SheetPoint[]): BoundsM {
  let [u0, v0, u1, v1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [u, v] of points) {
    u0 = Math.min(u0, u);
    v0 = Math.min(v0, v);
    u1 = Math.max(u1, u);
    v1 = Math.max(v1, v);
  }
  return { min: [u0, v0], max: [u1, v1] };
}

export const uniteBoundsM = (all: readonly BoundsM[]): BoundsM => boundsOf(all.flatMap(({ min, max }) => [min, max]));
