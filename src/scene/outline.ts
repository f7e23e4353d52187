import { applyToDirection, applyToPoint } from '../core/rigid.ts';
import type { PlacedShape } from '../core/shape.ts';
import type { Vec3 } from '../core/vec3.ts';
import type { OpticalSurface } from '../materials/surface.ts';
import { isFineDetail } from './roles.ts';
import type { SetModel } from './setModel.ts';
import { tessellate } from './tessellate.ts';

/** Plan looks down (x right, z down the sheet); front elevation looks along -z (x, y); side looks along -x (z, y). */
export type DrawingSide = 'plan' | 'front' | 'side';
export type SheetPoint = readonly [number, number];

/** One line of a to-scale drawing, metres on the sheet's own two axes. */
export interface Outline {
  readonly recordId: string;
  readonly role: string;
  readonly closed: boolean;
  readonly pointsM: readonly SheetPoint[];
}

const project = (side: DrawingSide, p: Vec3): SheetPoint =>
  side === 'plan' ? [p[0], p[2]] : side === 'front' ? [p[0], p[1]] : [p[2], p[1]];

/**
 * Lines of every record for plan or elevation. Upright turned bodies show their whole profile, both sides of the axis;
 * a box with rounded edges and an ice cube show one outline each; a surface seen edge on (paper from the side) shows as
 * an open line; all else by the convex outline of each surface. Bubbles, drops, cuts and crystals are left out.
 */
export function outlineSet(set: SetModel, side: DrawingSide): Outline[] {
  const outlines: Outline[] = [];
  for (const group of groupSurfaces(set.surfaces.filter((s) => !isFineDetail(s.role)))) {
    const { recordId, role } = group[0];
    const profile = side === 'plan' ? undefined : profileOutline(group, side);
    const line = profile ?? (group.length === 1 ? edgeOnLine(group[0], side) : undefined);
    if (line) outlines.push({ recordId, role, ...line });
    else outlines.push({ recordId, role, ...hullOutline(group, side) });
  }
  return outlines;
}

/** Neighbours that make one drawn line: a run of one upright profile, the sides of one rounded box. */
function groupSurfaces(surfaces: readonly OpticalSurface[]): OpticalSurface[][] {
  const groups: OpticalSurface[][] = [];
  for (const surface of surfaces) {
    const last = groups.at(-1);
    const before = last?.at(-1);
    if (last && before && before.recordId === surface.recordId && belongTogether(before, surface)) last.push(surface);
    else groups.push([surface]);
  }
  return groups;
}

function belongTogether(before: OpticalSurface, after: OpticalSurface): boolean {
  const a = profileEnd(before);
  const b = profileStart(after);
  if (a && b) return Math.hypot(a[0] - b[0], a[1] - b[1]) < 1e-9;
  const box = boxName(before.role);
  return a === undefined && b === undefined && box !== undefined && box === boxName(after.role);
}

const BOX_ROLE = /^(ice \d+ )?(left side|right side|underside|top|back|front|edge|corner|ball|faces)$/;
const boxName = (role: string): string | undefined =>
  BOX_ROLE.exec(role)?.[1] ?? (BOX_ROLE.test(role) ? 'box' : undefined);

type TurnedSurface = OpticalSurface & { readonly shape: { readonly type: 'revolvedLine' | 'revolvedArc' } };

const isUprightTurned = (s: OpticalSurface): s is TurnedSurface =>
  (s.shape.type === 'revolvedLine' || s.shape.type === 'revolvedArc') &&
  s.shape.azimuth === undefined &&
  s.worldFromLocal.rotation[4] > 1 - 1e-9;

function profileStart(s: OpticalSurface): SheetPoint | undefined {
  return isUprightTurned(s) ? profilePoints(s).at(0) : undefined;
}
function profileEnd(s: OpticalSurface): SheetPoint | undefined {
  return isUprightTurned(s) ? profilePoints(s).at(-1) : undefined;
}

/** The profile of a turned surface, (r, y) in its local space. */
function profilePoints({ shape }: OpticalSurface): SheetPoint[] {
  if (shape.type === 'revolvedLine') {
    return [
      [shape.r0M, shape.y0M],
      [shape.r1M, shape.y1M],
    ];
  }
  if (shape.type !== 'revolvedArc') return [];
  const span = shape.angle1Rad - shape.angle0Rad;
  const steps = Math.max(2, Math.ceil(Math.abs(span) / (Math.PI / 24)));
  return Array.from({ length: steps + 1 }, (_, i): SheetPoint => {
    const a = shape.angle0Rad + (span * i) / steps;
    return [Math.max(0, shape.centreRM + shape.radiusM * Math.cos(a)), shape.centreYM + shape.radiusM * Math.sin(a)];
  });
}

const ON_AXIS_M = 1e-9;

/** Down one side of the axis and up the other. */
function profileOutline(
  group: readonly OpticalSurface[],
  side: DrawingSide,
): Pick<Outline, 'closed' | 'pointsM'> | undefined {
  if (!group.every(isUprightTurned)) return undefined;
  const [x, y, z] = group[0].worldFromLocal.translationM;
  const axis = side === 'front' ? x : z;
  const right = group.flatMap((s, i) => profilePoints(s).slice(i === 0 ? 0 : 1));
  const left = [...right].reverse().map(([r, h]): SheetPoint => [axis - r, y + h]);
  const all = [...left, ...right.map(([r, h]): SheetPoint => [axis + r, y + h])];
  return { closed: right[0][0] < ON_AXIS_M && right[right.length - 1][0] < ON_AXIS_M, pointsM: dropRepeats(all) };
}

/** A flat sheet or a cylinder looked at along its own surface is a line on the sheet. */
function edgeOnLine(s: OpticalSurface, side: DrawingSide): Pick<Outline, 'closed' | 'pointsM'> | undefined {
  if (s.shape.type !== 'revolvedLine' || s.shape.azimuth === undefined || s.shape.r0M !== s.shape.r1M) return undefined;
  const along = project(side, applyToDirection(s.worldFromLocal, [0, 1, 0]));
  if (Math.hypot(along[0], along[1]) > 1e-6) return undefined;
  const { startRad, endRad } = s.shape.azimuth;
  const r = s.shape.r0M;
  const steps = 24;
  return {
    closed: false,
    pointsM: Array.from({ length: steps + 1 }, (_, i) => {
      const phi = startRad + ((endRad - startRad) * i) / steps;
      return project(side, applyToPoint(s.worldFromLocal, [r * Math.cos(phi), 0, r * Math.sin(phi)]));
    }),
  };
}

function hullOutline(group: readonly PlacedShape[], side: DrawingSide): Pick<Outline, 'closed' | 'pointsM'> {
  const points: SheetPoint[] = [];
  for (const { shape, worldFromLocal } of group) {
    const p = tessellate(shape).positionsM;
    for (let i = 0; i < p.length; i += 3)
      points.push(project(side, applyToPoint(worldFromLocal, [p[i], p[i + 1], p[i + 2]])));
  }
  const hull = convexHull(points);
  return { closed: hull.length > 2, pointsM: hull };
}

/** Counter-clockwise (A. M. Andrew, Information Processing Letters 9(5), 1979); two points when all lie on a line. */
export function convexHull(points: readonly SheetPoint[]): SheetPoint[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const chain = (run: readonly SheetPoint[]): SheetPoint[] => {
    const kept: SheetPoint[] = [];
    for (const p of run) {
      for (;;) {
        const a = kept.at(-2);
        const b = kept.at(-1);
        if (!a || !b || (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) > 1e-12) break;
        kept.pop();
      }
      kept.push(p);
    }
    return kept.slice(0, -1);
  };
  return dropRepeats([...chain(sorted), ...chain(sorted.reverse())]);
}

const dropRepeats = (points: readonly SheetPoint[]): SheetPoint[] =>
  points.filter((p, i) => i === 0 || Math.hypot(p[0] - points[i - 1][0], p[1] - points[i - 1][1]) > 1e-9);
