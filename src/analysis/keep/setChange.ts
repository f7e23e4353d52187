import { distance, lerp, type Vec3 } from '../../core/vec3.ts';
import { boundsOfShape, uniteBounds } from '../../scene/bounds.ts';
import type { Bounds } from '../../scene/setModel.ts';
import type { CheckInput } from '../contracts.ts';

/** A ball round an emitter, or round the whole face of a fixture that has many: where its light sets out. World, metres. */
export interface LightBall {
  readonly centreM: Vec3;
  readonly radiusM: number;
}

/** What differs between two states of one set. */
export interface SetChange {
  /** 1 by surface whose shape, place, finish or emission differs. */
  readonly surfaces: Uint8Array;
  /** 1 by emitter whose light at full output may differ; and whose gain does, or the exposure that it is seen at. */
  readonly emitters: Uint8Array;
  readonly gains: Uint8Array;
  /** Space that the changed records fill, before and after. */
  readonly boxes: readonly Bounds[];
  /** By emitter, after the change. */
  readonly balls: readonly LightBall[];
}

/** With more changed records than this nothing is worth keeping. */
const MOST_RECORDS = 6;
/** Words of the tracer are single precision. */
const MARGIN_M = 1e-4;
/** Fixtures of more emitters than this are looked at as one. */
const MANY = 9;

/**
 * Compares two states of a set, surface by surface.
 *
 * @returns null where they have too little in common for anything to be kept: other surfaces, other media, too many moves
 */
export function findSetChange(before: CheckInput, after: CheckInput): SetChange | null {
  const [old, now] = [before.set.surfaces, after.set.surfaces];
  const [oldEmitters, emitters] = [before.query.world.emitters, after.query.world.emitters];
  if (old.length !== now.length || oldEmitters.length !== emitters.length) return null;
  if (!isSame(before.set.volumes, after.set.volumes)) return null;
  if (!isSame(before.set.layerFixtureIds, after.set.layerFixtureIds)) return null;
  const surfaces = new Uint8Array(now.length);
  const boxes = new Map<string, Bounds>();
  const grow = (key: string, bounds: Bounds): void => {
    const known = boxes.get(key);
    boxes.set(key, known ? uniteBounds(known, bounds) : bounds);
  };
  for (let s = 0; s < now.length; s++) {
    if (old[s].recordId !== now[s].recordId || old[s].role !== now[s].role) return null;
    if (isSame(old[s], now[s])) continue;
    surfaces[s] = 1;
    grow(`before ${now[s].recordId}`, boundsOfShape(old[s]));
    grow(`after ${now[s].recordId}`, boundsOfShape(now[s]));
  }
  if (boxes.size > 2 * MOST_RECORDS) return null;
  const changedFixtures = new Set<string>();
  emitters.forEach((emitter, i) => {
    if (surfaces[emitter.surfaceIndex] || !isSame(emitter, oldEmitters[i])) changedFixtures.add(emitter.fixtureId);
  });
  const isCameraSame = isSame(before.scene.camera, after.scene.camera);
  const gainDiffers = (layer: number): boolean =>
    !isCameraSame || [0, 1, 2].some((k) => before.layerGains[layer * 3 + k] !== after.layerGains[layer * 3 + k]);
  return {
    surfaces,
    emitters: Uint8Array.from(emitters, ({ fixtureId }) => (changedFixtures.has(fixtureId) ? 1 : 0)),
    gains: Uint8Array.from(emitters, ({ layerIndex }) => (gainDiffers(layerIndex) ? 1 : 0)),
    boxes: [...boxes.values()].map(({ minM, maxM }) => ({
      minM: [minM[0] - MARGIN_M, minM[1] - MARGIN_M, minM[2] - MARGIN_M],
      maxM: [maxM[0] + MARGIN_M, maxM[1] + MARGIN_M, maxM[2] + MARGIN_M],
    })),
    balls: ballsOf(after),
  };
}

function ballsOf({ set, query }: CheckInput): LightBall[] {
  const { emitters } = query.world;
  const own = emitters.map(({ surfaceIndex }) => boundsOfShape(set.surfaces[surfaceIndex]));
  const byFixture = new Map<string, { readonly count: number; readonly bounds: Bounds }>();
  emitters.forEach(({ fixtureId }, i) => {
    const known = byFixture.get(fixtureId);
    byFixture.set(
      fixtureId,
      known ? { count: known.count + 1, bounds: uniteBounds(known.bounds, own[i]) } : { count: 1, bounds: own[i] },
    );
  });
  return emitters.map(({ fixtureId }, i) => {
    const fixture = byFixture.get(fixtureId);
    const { minM, maxM } = fixture && fixture.count > MANY ? fixture.bounds : own[i];
    return { centreM: lerp(minM, maxM, 0.5), radiusM: distance(minM, maxM) / 2 };
  });
}

/** Does a straight way from a to a ball round b pass through any of the boxes? */
export const meetsBoxes = (boxes: readonly Bounds[], a: Vec3, b: Vec3, radiusM: number): boolean =>
  meetsAnyBox(boxes, a[0], a[1], a[2], b[0], b[1], b[2], radiusM);

/** {@link meetsBoxes}, coordinate by coordinate. */
export function meetsAnyBox(
  boxes: readonly Bounds[],
  ax: number,
  ay: number,
  az: number,
  bx: number,
  by: number,
  bz: number,
  radiusM: number,
): boolean {
  for (let i = 0; i < boxes.length; i++) {
    const { minM, maxM } = boxes[i];
    const [x0, x1] = [minM[0] - radiusM, maxM[0] + radiusM];
    if ((ax < x0 && bx < x0) || (ax > x1 && bx > x1)) continue;
    const [y0, y1] = [minM[1] - radiusM, maxM[1] + radiusM];
    if ((ay < y0 && by < y0) || (ay > y1 && by > y1)) continue;
    const [z0, z1] = [minM[2] - radiusM, maxM[2] + radiusM];
    if ((az < z0 && bz < z0) || (az > z1 && bz > z1)) continue;
    // Both ends inside the slab of an axis along which nothing changes: the axis says nothing.
    const near = Math.max(0, entryOf(ax, bx - ax, x0, x1), entryOf(ay, by - ay, y0, y1), entryOf(az, bz - az, z0, z1));
    const far = Math.min(1, exitOf(ax, bx - ax, x0, x1), exitOf(ay, by - ay, y0, y1), exitOf(az, bz - az, z0, z1));
    if (near <= far) return true;
  }
  return false;
}

const entryOf = (from: number, along: number, low: number, high: number): number =>
  along === 0 ? 0 : ((along > 0 ? low : high) - from) / along;
const exitOf = (from: number, along: number, low: number, high: number): number =>
  along === 0 ? 1 : ((along > 0 ? high : low) - from) / along;

/** Equal plain data, whatever the order of keys. */
export function isSame(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const keys = Object.keys(a);
  if (keys.length !== Object.keys(b).length) return false;
  for (const key of keys) if (!(key in b) || !isSame(Reflect.get(a, key), Reflect.get(b, key))) return false;
  return true;
}
