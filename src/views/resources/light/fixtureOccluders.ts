import { applyToDirection, applyToPoint } from '../../../core/rigid.ts';
import type { MeshShape } from '../../../core/shape.ts';
import { addScaled, cross, dot, normalize, scale, sub, type Vec3 } from '../../../core/vec3.ts';
import { shadeSizesM } from '../../../fixtures/lanternShade.ts';
import { fixtureFrame } from '../../../fixtures/placement.ts';
import type { Fixture } from '../../../fixtures/records.ts';
import { SNOOT_STANDOFF_M } from '../../../fixtures/snoot.ts';
import type { OpticalSurface } from '../../../materials/surface.ts';
import type { ApertureOccluder, SheetOccluder, ShellOccluder } from './occluder.ts';

/** A leaf lets by what its rectangle would not: this share of each side is left of it. */
const LEAF_SHARE = 0.76;

/** What is fitted to a light that only its record tells simply: the end of a snoot, the shade of a lantern. */
export function fixtureOccluders(fixture: Fixture): (ApertureOccluder | ShellOccluder)[] {
  const frame = fixtureFrame(fixture);
  const common = { recordId: fixture.id, transmittance: 0 };
  if (fixture.kind === 'lantern') {
    const { heightM } = shadeSizesM(fixture);
    return [
      {
        ...common,
        kind: 'shell',
        footM: applyToPoint(frame, [0, -heightM / 2, 0]),
        radiusM: fixture.diameterM / 2,
        heightM,
        closedTop: fixture.top === 'closed',
        closedBottom: fixture.bottom === 'closed',
      },
    ];
  }
  if ((fixture.kind !== 'spot' && fixture.kind !== 'bulb') || !fixture.snoot) return [];
  const { lengthM, diameterM } = fixture.snoot;
  const opening = (atM: number): ApertureOccluder => ({
    ...common,
    kind: 'aperture',
    centreM: applyToPoint(frame, [0, 0, atM]),
    normal: applyToDirection(frame, [0, 0, 1]),
    radiusM: diameterM / 2,
  });
  if (fixture.kind === 'bulb') return [opening(lengthM)];
  const end = opening(SNOOT_STANDOFF_M + lengthM);
  // A tube narrower than the lens takes its rim as well.
  return diameterM < fixture.lensDiameterM ? [opening(SNOOT_STANDOFF_M), end] : [end];
}

/** The leaves of a flat mesh, each as a rectangle of about its area. */
export function leafSheets({ shape, worldFromLocal, recordId }: OpticalSurface): SheetOccluder[] {
  if (shape.type !== 'mesh') return [];
  return componentsOf(shape).flatMap((points): SheetOccluder[] => {
    const centre = scale(
      points.reduce<Vec3>((sum, p) => addScaled(sum, p, 1), [0, 0, 0]),
      1 / points.length,
    );
    const tip = points.reduce((far, p) => (reach(p, centre) > reach(far, centre) ? p : far));
    const along = normalize(sub(tip, centre));
    const plane = points
      .map((p) => cross(along, sub(p, centre)))
      .reduce((best, n) => (dot(n, n) > dot(best, n) ? n : best), [0, 0, 0] as Vec3);
    const across = normalize(cross(plane, along));
    const half = (axis: Vec3): number =>
      Math.max(...points.map((p) => Math.abs(dot(sub(p, centre), axis)))) * LEAF_SHARE;
    const [u, v] = [scale(along, half(along)), scale(across, half(across))];
    if (dot(v, v) === 0) return [];
    return [
      {
        kind: 'sheet',
        recordId,
        transmittance: 0,
        originM: applyToPoint(worldFromLocal, sub(sub(centre, u), v)),
        edgeUM: applyToDirection(worldFromLocal, scale(u, 2)),
        edgeVM: applyToDirection(worldFromLocal, scale(v, 2)),
      },
    ];
  });
}

const reach = (p: Vec3, from: Vec3): number => {
  const d = sub(p, from);
  return dot(d, d);
};

/** Corners of the parts of a mesh that hang together. */
function componentsOf({ positionsM, indices }: MeshShape): Vec3[][] {
  const parent = Array.from({ length: positionsM.length / 3 }, (_, i) => i);
  const root = (i: number): number => {
    let at = i;
    while (parent[at] !== at) at = parent[at];
    return at;
  };
  for (let k = 0; k < indices.length; k += 3) {
    parent[root(indices[k + 1])] = root(indices[k]);
    parent[root(indices[k + 2])] = root(indices[k]);
  }
  const parts = new Map<number, Vec3[]>();
  parent.forEach((_, i) => {
    const point: Vec3 = [positionsM[3 * i], positionsM[3 * i + 1], positionsM[3 * i + 2]];
    const part = parts.get(root(i));
    if (part) part.push(point);
    else parts.set(root(i), [point]);
  });
  return [...parts.values()];
}
