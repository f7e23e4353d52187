import type { Vec3 } from '../../core/vec3.ts';
import type { Bounds } from '../../scene/setModel.ts';
import { type ChainRecord, SIGHT_WORDS, WAY, WAY_WORDS } from '../specular/chainRecord.ts';
import { meetsAnyBox, type SetChange } from './setChange.ts';

/** Rays that were walked before, by where they start and where they go. */
export interface RayStore {
  /** Rays walked to another end are of no use. */
  walkedTo(throughputEnd: number): void;
  /** Null where the ray is not kept. */
  find(originM: Vec3, direction: Vec3, mostEvents: number): ChainRecord | null;
  /** Keeps a copy, and gives it. */
  keep(record: ChainRecord): ChainRecord;
}

export interface RunningRayStore extends RayStore {
  begin(run: number, change: SetChange | null): void;
}

/** Rays that so many runs have not asked for are dropped. */
const IDLE_RUNS = 4;

interface KeptRecord {
  readonly record: ChainRecord;
  /** Of all its ways. */
  readonly boundsM: Bounds;
  run: number;
}

export function createRayStore(): RunningRayStore {
  const kept = new Map<number, KeptRecord>();
  // Most rays are asked for in the order of the last run: the next in turn is tried before the map.
  let lastOrder: KeptRecord[] = [];
  let order: KeptRecord[] = [];
  let turn = 0;
  let runNow = 0;
  let endNow = Number.NaN;

  const clear = (): void => {
    kept.clear();
    lastOrder = [];
    order = [];
    turn = 0;
  };

  return {
    begin(run, change) {
      runNow = run;
      if (!change) {
        clear();
        return;
      }
      const isMoved = change.boxes.length > 0;
      const gone = new Set<KeptRecord>();
      for (const [key, known] of kept) {
        if (run - known.run > IDLE_RUNS || (isMoved && isCrossed(known, change))) {
          kept.delete(key);
          gone.add(known);
        }
      }
      lastOrder = gone.size > 0 ? order.filter((known) => !gone.has(known)) : order;
      order = [];
      turn = 0;
    },
    walkedTo(throughputEnd) {
      if (throughputEnd !== endNow) clear();
      endNow = throughputEnd;
    },
    find(originM, direction, mostEvents) {
      const next = turn < lastOrder.length ? lastOrder[turn] : undefined;
      const isNext = next !== undefined && isRay(next.record, originM, direction, mostEvents);
      if (isNext) turn++;
      const known = isNext ? next : kept.get(keyOf(originM, direction, mostEvents));
      if (!known || !isRay(known.record, originM, direction, mostEvents)) return null;
      known.run = runNow;
      order.push(known);
      return known.record;
    },
    keep(walked) {
      const { originM, direction, ways, wayCount, sights, sightCount } = walked;
      const record: ChainRecord = {
        ...walked,
        ways: ways.slice(0, wayCount * WAY_WORDS),
        sights: sights.slice(0, sightCount * SIGHT_WORDS),
        places: new Array<null>(sightCount).fill(null),
      };
      const known = { record, boundsM: boundsOf(record), run: runNow };
      kept.set(keyOf(originM, direction, walked.mostEvents), known);
      order.push(known);
      return record;
    },
  };
}

const isRay = ({ originM, direction, mostEvents }: ChainRecord, o: Vec3, d: Vec3, events: number): boolean =>
  mostEvents === events &&
  direction[0] === d[0] &&
  direction[1] === d[1] &&
  direction[2] === d[2] &&
  originM[0] === o[0] &&
  originM[1] === o[1] &&
  originM[2] === o[2];

/** Two rays of one key push one another out; what is found is compared. */
const keyOf = (o: Vec3, d: Vec3, mostEvents: number): number =>
  mostEvents + d[0] + Math.SQRT2 * d[1] + Math.E * d[2] + Math.PI * (o[0] + Math.LN2 * o[1] + Math.LN10 * o[2]);

/** Does a ray, or what it splits into, pass where something changed? */
function isCrossed({ record, boundsM }: KeptRecord, { boxes }: SetChange): boolean {
  if (!overlapsAny(boxes, boundsM)) return false;
  const { ways, wayCount, originM } = record;
  for (let way = 0; way < wayCount; way++) {
    const to = way * WAY_WORDS;
    const from = ways[to + WAY.parent] * WAY_WORDS;
    const isFirst = from < 0;
    const [x, y, z] = [
      isFirst ? originM[0] : ways[from],
      isFirst ? originM[1] : ways[from + 1],
      isFirst ? originM[2] : ways[from + 2],
    ];
    if (meetsAnyBox(boxes, x, y, z, ways[to], ways[to + 1], ways[to + 2], 0)) return true;
  }
  return false;
}

function overlapsAny(boxes: readonly Bounds[], { minM, maxM }: Bounds): boolean {
  for (let i = 0; i < boxes.length; i++) {
    const box = boxes[i];
    let overlaps = true;
    for (let k = 0; k < 3; k++) if (box.minM[k] > maxM[k] || minM[k] > box.maxM[k]) overlaps = false;
    if (overlaps) return true;
  }
  return false;
}

function boundsOf({ ways, wayCount, originM }: ChainRecord): Bounds {
  const [min, max] = [[...originM], [...originM]];
  for (let at = 0; at < wayCount * WAY_WORDS; at += WAY_WORDS) {
    for (let k = 0; k < 3; k++) {
      min[k] = Math.min(min[k], ways[at + k]);
      max[k] = Math.max(max[k], ways[at + k]);
    }
  }
  return { minM: [min[0], min[1], min[2]], maxM: [max[0], max[1], max[2]] };
}
