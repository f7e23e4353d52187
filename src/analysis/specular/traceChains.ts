import type { Vec3 } from '../../core/vec3.ts';
import type { RayQuery } from '../../transport/contracts.ts';
import { dielectricReflectance } from '../../transport/kernels/microfacet.ts';
import { type ChainRecord, FLAG, SIGHT, SIGHT_WORDS, WAY, WAY_WORDS } from './chainRecord.ts';
import { crossSurface, fillingVolume, IN_AIR, type InsideVolumes } from './insideVolumes.ts';
import { SurfaceKind, type SurfaceTable } from './surfaceTable.ts';

/** Chains end after this many events, or sooner where fewer are asked for. */
export const DEPTH_END = 12;
/** Boundaries that do nothing, passed one after another, before the walk gives up. */
const PASSES_END = 64;
/** Where a ray that meets nothing is said to end. */
const FAR_M = 1e3;
const FIRST_ROWS = 64;

/** Walks a ray through every reflection and refraction. The record is overwritten by the next ray. */
export type ChainTracer = (originM: Vec3, direction: Vec3, mostEvents: number) => ChainRecord;

/**
 * Exact unpolarised Fresnel at every boundary, total reflection, Beer-Lambert absorption along the way; what a cloudy
 * medium scatters is lost to the chain. Polarisation is forgotten between events.
 *
 * @param throughputEnd chains end when less than this is left of them
 */
export function createChainTracer(query: RayQuery, table: SurfaceTable, throughputEnd: number): ChainTracer {
  let ways = new Float64Array(FIRST_ROWS * WAY_WORDS);
  let sights = new Float64Array(FIRST_ROWS * SIGHT_WORDS);
  let wayCount = 0;
  let sightCount = 0;
  let firstMet = -1;
  let eventsEnd = DEPTH_END;

  const addWay = (parent: number, x: number, y: number, z: number): number => {
    ways = withRoom(ways, (wayCount + 1) * WAY_WORDS);
    const at = wayCount * WAY_WORDS;
    ways[at] = x;
    ways[at + 1] = y;
    ways[at + 2] = z;
    ways[at + WAY.parent] = parent;
    ways[at + WAY.passed] = 0;
    return wayCount++;
  };

  const walk = (
    originM: Vec3,
    direction: Vec3,
    parentAtStart: number,
    r: number,
    g: number,
    b: number,
    events: number,
    firstSurface: number,
    transmitted: boolean,
    mirrorSurface: number,
    insideAtStart: InsideVolumes,
    travelledAtStartM: number,
    taken: boolean,
    hazedAtStart: boolean,
  ): void => {
    let hazed = hazedAtStart;
    let inside = insideAtStart;
    let fromM = originM;
    let parent = parentAtStart;
    let travelledM = travelledAtStartM;
    for (let pass = 0; pass < PASSES_END; pass++) {
      const hit = query.closestHit(fromM, direction);
      if (!hit) {
        addWay(
          parent,
          fromM[0] + FAR_M * direction[0],
          fromM[1] + FAR_M * direction[1],
          fromM[2] + FAR_M * direction[2],
        );
        return;
      }
      const { surfaceIndex: s, pointM } = hit;
      const way = addWay(parent, pointM[0], pointM[1], pointM[2]);
      if (way === 0) firstMet = s;
      travelledM += hit.tM;
      const filling = fillingVolume(table, inside);
      if (filling >= 0) {
        r *= Math.exp(-table.volumeExtinction[filling * 3] * hit.tM);
        g *= Math.exp(-table.volumeExtinction[filling * 3 + 1] * hit.tM);
        b *= Math.exp(-table.volumeExtinction[filling * 3 + 2] * hit.tM);
        if (Math.max(r, g, b) < throughputEnd) return;
      }
      const kind = table.kind[s];

      // Clear boundary: does it divide two media at all?
      if (kind === SurfaceKind.clear || kind === SurfaceKind.frosted) {
        const beyond = crossSurface(table, inside, s, hit.front);
        const beyondFilling = beyond === inside ? filling : fillingVolume(table, beyond);
        const n1 = filling >= 0 ? table.volumeIndex[filling] : 1;
        const n2 = beyondFilling >= 0 ? table.volumeIndex[beyondFilling] : 1;
        if (beyondFilling === filling || n1 === n2) {
          ways[way * WAY_WORDS + WAY.passed] = 1;
          inside = beyond;
          fromM = pointM;
          parent = way;
          continue;
        }
        const side = hit.front ? 1 : -1;
        const n: Vec3 = [hit.normal[0] * side, hit.normal[1] * side, hit.normal[2] * side];
        const cosI = Math.min(1, Math.max(0, -(direction[0] * n[0] + direction[1] * n[1] + direction[2] * n[2])));
        const eta = n2 / n1;
        const reflectance = dielectricReflectance(cosI, eta);
        if (events >= eventsEnd) return;
        // A ground surface shows no image: what is mostly behind it stands for the blur, lamps and sheets left out.
        if (kind === SurfaceKind.frosted) hazed = true;
        const first = events === 0 ? s : firstSurface;
        const most = Math.max(r, g, b);
        if (reflectance * most >= throughputEnd && kind !== SurfaceKind.frosted)
          walk(
            pointM,
            mirrored(direction, n, cosI),
            way,
            r * reflectance,
            g * reflectance,
            b * reflectance,
            events + 1,
            first,
            events === 0 ? false : transmitted,
            s,
            inside,
            travelledM,
            false,
            hazed,
          );
        const rest = 1 - reflectance;
        if (rest * most < throughputEnd) return;
        const cosT = Math.sqrt(Math.max(0, 1 - (1 - cosI * cosI) / (eta * eta)));
        const k = cosI / eta - cosT;
        walk(
          pointM,
          unit([direction[0] / eta + k * n[0], direction[1] / eta + k * n[1], direction[2] / eta + k * n[2]]),
          way,
          r * rest,
          g * rest,
          b * rest,
          events + 1,
          first,
          events === 0 ? true : transmitted,
          mirrorSurface,
          beyond,
          travelledM,
          hazed,
          hazed,
        );
        return;
      }

      const side = hit.front ? 1 : -1;
      const normal: Vec3 = [hit.normal[0] * side, hit.normal[1] * side, hit.normal[2] * side];
      sights = withRoom(sights, (sightCount + 1) * SIGHT_WORDS);
      const at = sightCount++ * SIGHT_WORDS;
      sights[at + SIGHT.surface] = s;
      sights[at + SIGHT.flags] =
        (hit.front ? FLAG.front : 0) |
        (taken || hazed ? FLAG.taken : 0) |
        (hazed ? FLAG.hazed : 0) |
        (transmitted ? FLAG.transmitted : 0);
      for (let k = 0; k < 3; k++) {
        sights[at + SIGHT.normal + k] = normal[k];
        sights[at + SIGHT.toViewer + k] = -direction[k];
      }
      sights[at + SIGHT.through] = r;
      sights[at + SIGHT.through + 1] = g;
      sights[at + SIGHT.through + 2] = b;
      // Radiance grows with n^2 on the way in and shrinks by it on the way out: what scatters inside is seen so much less.
      sights[at + SIGHT.ratio] = filling >= 0 ? 1 / table.volumeIndex[filling] ** 2 : 1;
      // What is seen by way of a mirror or glass needs half the detail.
      sights[at + SIGHT.detailM] = events > 0 ? 2 * travelledM : travelledM;
      sights[at + SIGHT.events] = events;
      sights[at + SIGHT.firstSurface] = firstSurface;
      sights[at + SIGHT.mirrorSurface] = mirrorSurface;
      sights[at + SIGHT.way] = way;

      // Its mirror image.
      if (!table.showsOthers[s] || events >= eventsEnd) return;
      const cosH = direction[0] * normal[0] + direction[1] * normal[1] + direction[2] * normal[2];
      if (cosH >= 0) return;
      const n1 = filling >= 0 ? table.volumeIndex[filling] : 1;
      let [fr, fg, fb] = [1, 1, 1];
      if (kind === SurfaceKind.gloss) {
        const fresnel = dielectricReflectance(-cosH, table.coatIndex[s] / n1);
        fr *= fresnel;
        fg *= fresnel;
        fb *= fresnel;
      } else {
        const lift = kind === SurfaceKind.metal ? (1 + cosH) ** 5 : 0;
        const [ar, ag, ab] = [table.reflectance[s * 3], table.reflectance[s * 3 + 1], table.reflectance[s * 3 + 2]];
        fr *= ar + (1 - ar) * lift;
        fg *= ag + (1 - ag) * lift;
        fb *= ab + (1 - ab) * lift;
      }
      if (Math.max(r * fr, g * fg, b * fb) < throughputEnd) return;
      walk(
        pointM,
        mirrored(direction, normal, -cosH),
        way,
        r * fr,
        g * fg,
        b * fb,
        events + 1,
        events === 0 ? s : firstSurface,
        events === 0 ? false : transmitted,
        s,
        inside,
        travelledM,
        // Rough: lamps and sheets by their sheen, all else by one ray.
        table.isRough[s] === 1,
        hazed || table.mirrorLike[s] === 0,
      );
      return;
    }
  };

  return (originM, direction, mostEvents) => {
    eventsEnd = mostEvents;
    wayCount = 0;
    sightCount = 0;
    firstMet = -1;
    walk(originM, direction, -1, 1, 1, 1, 0, -1, false, -1, IN_AIR, 0, false, false);
    return {
      originM,
      direction,
      mostEvents,
      ways,
      wayCount,
      sights,
      sightCount,
      firstSurface: firstMet,
      places: null,
    };
  };
}

/** The same words, with room for so many. */
function withRoom(words: Float64Array<ArrayBuffer>, length: number): Float64Array<ArrayBuffer> {
  if (length <= words.length) return words;
  const longer = new Float64Array(words.length * 2);
  longer.set(words);
  return longer;
}

/** Direction of travel after a mirror, from the direction before, the facing normal and their cosine (> 0). */
const mirrored = (d: Vec3, n: Vec3, cosI: number): Vec3 => [
  d[0] + 2 * cosI * n[0],
  d[1] + 2 * cosI * n[1],
  d[2] + 2 * cosI * n[2],
];

const unit = (d: Vec3): Vec3 => {
  const inverse = 1 / Math.sqrt(d[0] * d[0] + d[1] * d[1] + d[2] * d[2]);
  return [d[0] * inverse, d[1] * inverse, d[2] * inverse];
};
