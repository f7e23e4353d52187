import { applyToDirection } from '../../core/rigid.ts';
import { cross, dot, length } from '../../core/vec3.ts';
import type { OpticalSurface } from '../../materials/surface.ts';
import { isFineDetail } from '../../scene/roles.ts';
import { circle } from './circle.ts';
import { convexHull } from './hull.ts';
import { mergeLines } from './mergeLines.ts';
import { type Projection, projectToSheet, towardReader } from './projection.ts';
import type { SheetLine } from './sheet.ts';
import { hullPoints, profilePoints, surfaceOutlines } from './surfaceOutline.ts';

/** Share of the height that still counts as the rim or the foot. */
const NEAR_AN_END = 0.06;
/** Rings nearer than this would run together. */
const LEAST_DIFFERENCE_M = 0.0015;

/** Parts of a glass that its outline is made of; walls inside, drink and ice are drawn lighter. */
const OUTSIDE: ReadonlySet<string> = new Set(['underside', 'foot edge', 'foot', 'stem', 'outer wall', 'rim']);

/** A vessel: rings on the plan, its section in elevation, with the drink and the ice that it holds. */
export const drawGlass = (surfaces: readonly OpticalSurface[], projection: Projection): SheetLine[] =>
  projection === 'plan' ? glassPlan(surfaces) : glassElevation(surfaces, projection);

/** Rim inside and out, the widest part, the foot (dashed where the bowl hides it), and the ice. */
function glassPlan(surfaces: readonly OpticalSurface[]): SheetLine[] {
  const outside = surfaces.filter(({ role }) => OUTSIDE.has(role));
  // The turntable may have carried the glass off its own record's position.
  const centre = outside[0]?.worldFromLocal.translationM ?? [0, 0, 0];
  const ring = (radiusM: number, rest: Pick<SheetLine, 'weight' | 'dash'>): SheetLine => ({
    points: circle([centre[0], centre[2]], radiusM),
    closed: true,
    ...rest,
  });
  const walls = outside.flatMap(({ shape }) => profilePoints(shape));
  const inside = surfaces.filter(({ role }) => role === 'inner wall').flatMap(({ shape }) => profilePoints(shape));
  const heightM = Math.max(0, ...walls.map(([, y]) => y));
  const widestAbove = (points: typeof walls, y: number): number =>
    Math.max(0, ...points.filter(([, at]) => at >= y).map(([r]) => r));
  const rimM = widestAbove(walls, heightM * (1 - NEAR_AN_END));
  const widestM = widestAbove(walls, 0);
  const footM = Math.max(0, ...walls.filter(([, y]) => y <= heightM * NEAR_AN_END).map(([r]) => r));
  const innerM = widestAbove(inside, heightM * (1 - NEAR_AN_END));
  const differs = (a: number, b: number): boolean => Math.abs(a - b) > LEAST_DIFFERENCE_M;
  return [
    ...iceLines(surfaces, 'plan'),
    ring(rimM, { weight: 'medium' }),
    ...(innerM > 0 ? [ring(innerM, { weight: 'hair' })] : []),
    ...(differs(widestM, rimM) ? [ring(widestM, { weight: 'thin' })] : []),
    ...(differs(footM, rimM) && differs(footM, widestM) ? [ring(footM, { weight: 'hair', dash: 'dashed' })] : []),
  ];
}

/** The section: both sides of every wall, the surface of the drink, the ice. */
function glassElevation(surfaces: readonly OpticalSurface[], projection: Projection): SheetLine[] {
  const lineOf = (weight: SheetLine['weight'], some: readonly OpticalSurface[]): SheetLine[] =>
    mergeLines(some.flatMap((s) => surfaceOutlines(s, projection))).map((line) => ({ ...line, weight }));
  const outside = surfaces.filter(({ role }) => OUTSIDE.has(role));
  const inside = surfaces.filter((s) => !OUTSIDE.has(s.role) && iceName(s) === null && !isFineDetail(s.role));
  return [...lineOf('hair', inside), ...iceLines(surfaces, projection), ...lineOf('medium', outside)];
}

/** Which cube of ice a surface belongs to. */
const iceName = (surface: OpticalSurface): string | null => /^ice \d+/.exec(surface.role)?.[0] ?? null;

/** Each cube by its outline and the flat faces that it turns to the reader. */
function iceLines(surfaces: readonly OpticalSurface[], projection: Projection): SheetLine[] {
  const cubes = new Map<string, OpticalSurface[]>();
  for (const surface of surfaces) {
    const name = iceName(surface);
    if (name !== null) cubes.set(name, [...(cubes.get(name) ?? []), surface]);
  }
  return [...cubes.values()].flatMap((cube) => {
    const outline = convexHull(cube.flatMap(hullPoints).map((p) => projectToSheet(projection, p)));
    const faces = cube.filter((s) => isQuadTowardReader(s, projection)).flatMap((s) => surfaceOutlines(s, projection));
    return [{ points: outline, closed: outline.length > 2 }, ...faces].map(
      (line): SheetLine => ({ ...line, weight: 'hair' }),
    );
  });
}

export function isQuadTowardReader({ shape, worldFromLocal }: OpticalSurface, projection: Projection): boolean {
  if (shape.type !== 'quad') return false;
  const normal = applyToDirection(worldFromLocal, cross(shape.edgeUM, shape.edgeVM));
  return dot(normal, towardReader(projection)) > 0.05 * length(normal);
}
