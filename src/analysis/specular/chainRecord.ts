import type { Vec3 } from '../../core/vec3.ts';
import type { KeptPlace } from '../keep/keptPlaces.ts';

/**
 * What one ray and everything that it splits into meets, in the order of the walk: the ways between boundaries, and the
 * surfaces seen at their ends with how much gets through to the lens. No light is in it, so it holds for any gains.
 */
export interface ChainRecord {
  readonly originM: Vec3;
  readonly direction: Vec3;
  /** Chains of more mirror-like events than this were not followed. */
  readonly mostEvents: number;
  /** `wayCount` rows of `WAY_WORDS`. */
  readonly ways: Float64Array;
  readonly wayCount: number;
  /** `sightCount` rows of `SIGHT_WORDS`: surfaces that are seen. */
  readonly sights: Float64Array;
  readonly sightCount: number;
  /** First surface met, -1 for none. */
  readonly firstSurface: number;
  /** By sight, the place whose light it shows, where records are kept; null for one not lit yet. */
  readonly places: (KeptPlace | null)[] | null;
}

export const WAY_WORDS = 5;
/** Words of a way: where it ends, what way led to its start (-1: the lens), and 1 where it ends at a boundary that does nothing. */
export const WAY = { endM: 0, parent: 3, passed: 4 } as const;

export const SIGHT_WORDS = 17;
/** Words of a sight. */
export const SIGHT = {
  surface: 0,
  flags: 1,
  /** Unit, on the side of the ray. */
  normal: 2,
  /** Unit, against the ray. */
  toViewer: 5,
  /** How much of what leaves here reaches the lens, working RGB. */
  through: 8,
  /** 1 / n^2 of the medium in front. */
  ratio: 11,
  detailM: 12,
  events: 13,
  firstSurface: 14,
  mirrorSurface: 15,
  /** The way that ends here. */
  way: 16,
} as const;

export const FLAG = {
  front: 1,
  /** The light of lamps and sheets met here is counted already, by the sheen of a rough surface. */
  taken: 2,
  /** Seen by way of a ground surface: what it shows has no outline and no name. */
  hazed: 4,
  /** The chain began by going through a surface. */
  transmitted: 8,
} as const;

/** Where a way ends; -1 for the lens. */
export const endOfWay = ({ ways, originM }: ChainRecord, way: number): Vec3 =>
  way < 0 ? originM : [ways[way * WAY_WORDS], ways[way * WAY_WORDS + 1], ways[way * WAY_WORDS + 2]];

/** Points from the lens on to the end of a way, boundaries that do nothing left out. */
export function pointsToWay(record: ChainRecord, way: number): Vec3[] {
  const points = [endOfWay(record, way)];
  let parent = record.ways[way * WAY_WORDS + WAY.parent];
  while (parent >= 0) {
    if (record.ways[parent * WAY_WORDS + WAY.passed] === 0) points.push(endOfWay(record, parent));
    parent = record.ways[parent * WAY_WORDS + WAY.parent];
  }
  points.push(record.originM);
  return points.reverse();
}
