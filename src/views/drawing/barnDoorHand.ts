import { applyToPoint } from '../../core/rigid.ts';
import { radFromDeg } from '../../core/units.ts';
import { add, addScaled, scale, type Vec3 } from '../../core/vec3.ts';
import type { BarnDoors, Fixture } from '../../fixtures/records.ts';
import type { OpticalSurface } from '../../materials/surface.ts';
import { type Projection, projectToSheet, type SheetPoint, sheetDistance } from './projection.ts';

export type Leaf = 'topDeg' | 'bottomDeg' | 'leftDeg' | 'rightDeg';

/** A leaf of the barn doors as a hand takes hold of it: by the middle of its free edge. */
export interface LeafGrip {
  readonly fixtureId: string;
  readonly leaf: Leaf;
  readonly openDeg: number;
  readonly hinge: SheetPoint;
  readonly tip: SheetPoint;
}

const LEAVES: readonly { readonly leaf: Leaf; readonly role: string; readonly outward: Vec3 }[] = [
  { leaf: 'topDeg', role: 'barn door top', outward: [0, 1, 0] },
  { leaf: 'bottomDeg', role: 'barn door bottom', outward: [0, -1, 0] },
  { leaf: 'leftDeg', role: 'barn door left', outward: [1, 0, 0] },
  { leaf: 'rightDeg', role: 'barn door right', outward: [-1, 0, 0] },
];
const MOST_DEG = 135;
const STEP_DEG = 0.5;
/** A leaf whose swing shows shorter than this on the sheet is seen along its hinge's plane and can't be set there. */
const SHORTEST_SWING_M = 0.01;

const doorsOf = (fixture: Fixture): BarnDoors | undefined => ('barnDoors' in fixture ? fixture.barnDoors : undefined);

/** Where the middle of the free edge is when a leaf stands open by an angle; see `barnDoorSheets` for the convention. */
function tipAt(surface: OpticalSurface, outward: Vec3, lengthM: number, openDeg: number): Vec3 | null {
  if (surface.shape.type !== 'quad') return null;
  const { originM, edgeUM } = surface.shape;
  const open = radFromDeg(openDeg);
  const leaf = add(scale(outward, -Math.cos(open) * lengthM), [0, 0, Math.sin(open) * lengthM]);
  return applyToPoint(surface.worldFromLocal, add(addScaled(originM, edgeUM, 0.5), leaf));
}

/** The grips of a light's leaves on one sheet; those that swing toward the reader alone are left out. */
export function leafGrips(fixture: Fixture, surfaces: readonly OpticalSurface[], projection: Projection): LeafGrip[] {
  const doors = doorsOf(fixture);
  if (!doors) return [];
  return LEAVES.flatMap(({ leaf, role, outward }): LeafGrip[] => {
    const surface = surfaces.find((candidate) => candidate.recordId === fixture.id && candidate.role === role);
    if (surface?.shape.type !== 'quad') return [];
    const on = (openDeg: number): SheetPoint | null => {
      const tipM = tipAt(surface, outward, doors.lengthM, openDeg);
      return tipM && projectToSheet(projection, tipM);
    };
    const [shut, straight, tip] = [on(0), on(90), on(doors[leaf])];
    if (!shut || !straight || !tip || sheetDistance(shut, straight) < SHORTEST_SWING_M) return [];
    const { originM, edgeUM } = surface.shape;
    const hinge = projectToSheet(projection, applyToPoint(surface.worldFromLocal, addScaled(originM, edgeUM, 0.5)));
    return [{ fixtureId: fixture.id, leaf, openDeg: doors[leaf], hinge, tip }];
  });
}

/** The opening, to half a degree, at which the free edge of a leaf comes nearest to a place on the sheet. */
export function leafOpeningAt(
  fixture: Fixture,
  surfaces: readonly OpticalSurface[],
  projection: Projection,
  leaf: Leaf,
  at: SheetPoint,
): number | null {
  const doors = doorsOf(fixture);
  const known = LEAVES.find((entry) => entry.leaf === leaf);
  const surface = surfaces.find(({ recordId, role }) => recordId === fixture.id && role === known?.role);
  if (!doors || !known || !surface) return null;
  let best: { readonly openDeg: number; readonly offM: number } | null = null;
  for (let openDeg = 0; openDeg <= MOST_DEG; openDeg += STEP_DEG) {
    const tipM = tipAt(surface, known.outward, doors.lengthM, openDeg);
    if (!tipM) return null;
    const offM = sheetDistance(projectToSheet(projection, tipM), at);
    if (best === null || offM < best.offM) best = { openDeg, offM };
  }
  return best?.openDeg ?? null;
}
