import { applyToDirection } from '../../core/rigid.ts';
import { cross, dot, length } from '../../core/vec3.ts';
import type { OpticalSurface } from '../../materials/surface.ts';
import type { Piece } from '../../scene/records.ts';
import { circle } from './circle.ts';
import { convexHull } from './hull.ts';
import { mergeLines } from './mergeLines.ts';
import { type Projection, projectToSheet, towardReader } from './projection.ts';
import type { SheetLine } from './sheet.ts';
import { hullPoints, surfaceOutlines } from './surfaceOutline.ts';

type Glass = Extract<Piece, { kind: 'glass' }>;

/** Parts of a glass that its outline is made of; walls inside, drink and ice are drawn lighter. */
const OUTSIDE: ReadonlySet<string> = new Set(['underside', 'foot edge', 'foot', 'stem', 'outer wall', 'rim']);

/** A vessel: rings on the plan, its section in elevation, with the drink and the ice that it holds. */
export const drawGlass = (piece: Glass, surfaces: readonly OpticalSurface[], projection: Projection): SheetLine[] =>
  projection === 'plan' ? glassPlan(piece, surfaces) : glassElevation(surfaces, projection);

/** Rim inside and out, the widest part, the foot (dashed where the bowl hides it), and the ice. */
function glassPlan(piece: Glass, surfaces: readonly OpticalSurface[]): SheetLine[] {
  const { profile } = piece;
  // The turntable may have carried the glass off its own record's position.
  const centre = surfaces.find(({ role }) => OUTSIDE.has(role))?.worldFromLocal.translationM ?? piece.positionM;
  const ring = (diameterM: number, rest: Pick<SheetLine, 'weight' | 'dash'>): SheetLine => ({
    points: circle([centre[0], centre[2]], diameterM / 2),
    closed: true,
    ...rest,
  });
  const lines = iceLines(surfaces, 'plan');
  switch (profile.shape) {
    case 'highball':
    case 'tumbler':
      lines.push(ring(profile.rimDiameterM, { weight: 'medium' }));
      lines.push(ring(profile.rimDiameterM - 2 * profile.wallM, { weight: 'hair' }));
      if (Math.abs(profile.baseDiameterM - profile.rimDiameterM) > 0.001) {
        lines.push(ring(profile.baseDiameterM, { weight: 'hair', dash: 'dashed' }));
      }
      return lines;
    case 'coupe':
    case 'conicalStemmed':
    case 'flute':
    case 'wine':
      lines.push(ring(profile.rimDiameterM, { weight: 'medium' }));
      lines.push(ring(profile.rimDiameterM - 2 * profile.wallM, { weight: 'hair' }));
      lines.push(ring(profile.footDiameterM, { weight: 'hair', dash: 'dashed' }));
      if (profile.bowlDiameterM) lines.push(ring(profile.bowlDiameterM, { weight: 'thin' }));
      return lines;
    case 'bottle':
      lines.push(ring(profile.bodyDiameterM, { weight: 'medium' }));
      lines.push(ring(profile.neckDiameterM, { weight: 'thin' }));
      lines.push(ring(profile.neckDiameterM - 2 * profile.wallM, { weight: 'hair' }));
      return lines;
  }
}

/** The section: both sides of every wall, the surface of the drink, the ice. */
function glassElevation(surfaces: readonly OpticalSurface[], projection: Projection): SheetLine[] {
  const lineOf = (weight: SheetLine['weight'], some: readonly OpticalSurface[]): SheetLine[] =>
    mergeLines(some.flatMap((s) => surfaceOutlines(s, projection))).map((line) => ({ ...line, weight }));
  const outside = surfaces.filter(({ role }) => OUTSIDE.has(role));
  const inside = surfaces.filter((s) => !OUTSIDE.has(s.role) && iceName(s) === null);
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

function isQuadTowardReader({ shape, worldFromLocal }: OpticalSurface, projection: Projection): boolean {
  if (shape.type !== 'quad') return false;
  const normal = applyToDirection(worldFromLocal, cross(shape.edgeUM, shape.edgeVM));
  return dot(normal, towardReader(projection)) > 0.05 * length(normal);
}
