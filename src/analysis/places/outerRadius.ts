import type { OpticalSurface } from '../../materials/surface.ts';
import { boundsOfShape, uniteBounds } from '../../scene/bounds.ts';
import type { Bounds } from '../../scene/setModel.ts';
import type { CheckInput } from '../contracts.ts';

/** Slack at the ends of a profile piece. */
const END_M = 1e-6;

/**
 * Half width of a record by height, metres: the largest radius of its turned surfaces there, or half the mean width of its
 * flat ones and meshes. 0 where it has nothing.
 */
export function outerRadiusOf({ set }: Pick<CheckInput, 'set'>, recordId: string): (heightM: number) => number {
  const turned: OpticalSurface[] = [];
  const flats: Bounds[] = [];
  for (const surface of set.surfaces) {
    if (surface.recordId !== recordId) continue;
    if (isTurned(surface)) turned.push(surface);
    else flats.push(boundsOfShape(surface));
  }
  return (heightM) => {
    const mostM = turned.reduce((most, surface) => Math.max(most, turnedRadiusM(surface, heightM)), 0);
    const here = flats.filter(({ minM, maxM }) => heightM >= minM[1] && heightM <= maxM[1]);
    if (here.length === 0) return mostM;
    const { minM, maxM } = here.reduce(uniteBounds);
    return Math.max(mostM, (maxM[0] - minM[0] + maxM[2] - minM[2]) / 4);
  };
}

/** The largest radius between two heights, at `steps` places. */
export function widestRadiusM(radiusAtM: (heightM: number) => number, lowM: number, highM: number, steps = 9): number {
  let mostM = 0;
  for (let i = 0; i < steps; i++) mostM = Math.max(mostM, radiusAtM(lowM + ((i + 0.5) / steps) * (highM - lowM)));
  return mostM;
}

/** Upright, and all the way round. */
const isTurned = ({ shape, worldFromLocal }: OpticalSurface): boolean =>
  worldFromLocal.rotation[4] > 1 - 1e-9 &&
  (shape.type === 'revolvedLine' || shape.type === 'revolvedArc') &&
  !shape.azimuth;

/** Radius of an upright whole turned surface at a height, 0 where it has none there. */
function turnedRadiusM(surface: OpticalSurface, heightM: number): number {
  const { shape, worldFromLocal } = surface;
  if (shape.type === 'revolvedLine') {
    const y = heightM - worldFromLocal.translationM[1];
    const [low, high] = [Math.min(shape.y0M, shape.y1M), Math.max(shape.y0M, shape.y1M)];
    if (y < low - END_M || y > high + END_M) return 0;
    const span = shape.y1M - shape.y0M;
    if (Math.abs(span) < 2 * END_M) return Math.max(shape.r0M, shape.r1M);
    const t = Math.min(1, Math.max(0, (y - shape.y0M) / span));
    return shape.r0M + t * (shape.r1M - shape.r0M);
  }
  if (shape.type === 'revolvedArc') {
    const s = (heightM - worldFromLocal.translationM[1] - shape.centreYM) / shape.radiusM;
    if (Math.abs(s) > 1) return 0;
    const [from, to] = [Math.min(shape.angle0Rad, shape.angle1Rad), Math.max(shape.angle0Rad, shape.angle1Rad)];
    const a = Math.asin(s);
    return [a, Math.PI - a]
      .filter((angle) => isWithin(angle, from, to))
      .reduce((most, angle) => Math.max(most, shape.centreRM + shape.radiusM * Math.cos(angle)), 0);
  }
  return 0;
}

function isWithin(angle: number, from: number, to: number): boolean {
  const turn = 2 * Math.PI;
  const past = (((angle - from) % turn) + turn) % turn;
  return past <= to - from + 1e-9 || past >= turn - 1e-9;
}
