import { rayThrough } from '../../camera/projection.ts';
import { boxInFrame } from '../places/heroCells.ts';
import type { FrameStudy, HeroPlace } from '../study.ts';
import { nitsAt } from './readDrink.ts';

/** One place on the outline of the glass. */
export interface EdgeReading {
  readonly u: number;
  readonly v: number;
  readonly outsideNits: number;
  /** Of what lies just inside the outline, that which differs most from outside. */
  readonly edgeNits: number;
  /** log2(edge / outside): over 0 a bright line on dark, under 0 a dark line on bright. */
  readonly stops: number;
}

const ROWS = 14;
/** Heights left out at rim and foot, as parts of the glass. */
const END_SHARE = 0.08;
/** Looks inside the outline, and the one outside, in half widths of the glass at that height. */
const INSIDE = [0.015, 0.04, 0.08, 0.14, 0.2];
const OUTSIDE = 0.06;
const BISECTIONS = 10;
const SCANS = 40;

/** Reads the outline of a glass on both sides at 14 heights, where it is in the frame. */
export function readEdges(study: FrameStudy, hero: HeroPlace): EdgeReading[] {
  const box = boxInFrame(study.input, hero.bounds);
  if (!box) return [];
  const readings: EdgeReading[] = [];
  const aspect = study.input.view.tanHalfWidth / study.input.view.tanHalfHeight;
  // A little more than the box, for a box seen in perspective is no tighter than its corners.
  const margin = 0.05 * (box.u1 - box.u0) + 0.002 / aspect;
  for (let i = 0; i < ROWS; i++) {
    const v = box.v0 + (END_SHARE + ((1 - 2 * END_SHARE) * (i + 0.5)) / ROWS) * (box.v1 - box.v0);
    const [left, right] = silhouetteAt(study, hero, v, box.u0 - margin, box.u1 + margin);
    if (left === null || right === null) continue;
    const half = (right - left) / 2;
    for (const [edge, inward] of [
      [left, 1],
      [right, -1],
    ] as const) {
      const outsideU = edge - inward * OUTSIDE * half;
      if (outsideU < 0 || outsideU > 1) continue;
      const reading = readEdge(study, edge, v, inward * half, outsideU);
      readings.push(reading);
    }
  }
  return readings;
}

function readEdge(study: FrameStudy, edgeU: number, v: number, inwardHalf: number, outsideU: number): EdgeReading {
  const floor = study.blackNits;
  const outsideNits = nitsAt(study, outsideU, v);
  let edgeNits = outsideNits;
  let stops = 0;
  for (const step of INSIDE) {
    const nits = nitsAt(study, edgeU + step * inwardHalf, v);
    const difference = Math.log2(Math.max(nits, floor) / Math.max(outsideNits, floor));
    if (Math.abs(difference) <= Math.abs(stops)) continue;
    stops = difference;
    edgeNits = nits;
  }
  return { u: edgeU, v, outsideNits, edgeNits, stops };
}

/** Left and right end of the glass along a row of the frame; null where it is not met. */
function silhouetteAt(
  study: FrameStudy,
  hero: HeroPlace,
  v: number,
  fromU: number,
  toU: number,
): readonly [number | null, number | null] {
  const meets = (u: number): boolean => {
    const { originM, direction } = rayThrough(study.input.view, u, v);
    const hit = study.input.query.closestHit(originM, direction);
    return hit !== null && study.input.set.surfaces[hit.surfaceIndex].recordId === hero.recordId;
  };
  const refine = (outside: number, inside: number): number => {
    let [out, within] = [outside, inside];
    for (let i = 0; i < BISECTIONS; i++) {
      const middle = (out + within) / 2;
      if (meets(middle)) within = middle;
      else out = middle;
    }
    return within;
  };
  const at = (i: number): number => fromU + ((toU - fromU) * i) / SCANS;
  let first = -1;
  let last = -1;
  for (let i = 0; i <= SCANS; i++) {
    if (!meets(at(i))) continue;
    if (first < 0) first = i;
    last = i;
  }
  if (first < 0) return [null, null];
  return [first > 0 ? refine(at(first - 1), at(first)) : null, last < SCANS ? refine(at(last + 1), at(last)) : null];
}
