import type { Vec3 } from '../../core/vec3.ts';
import type { Hit, RayQuery, World } from '../contracts.ts';
import { createEmitterSampler } from '../kernels/emitterSampling.ts';
import { createIntersector, RAY_START_M } from '../kernels/intersector.ts';
import { FINISH, FinishKind, PRIMITIVE } from '../layout/schema.ts';

/**
 * A segment ends this share of its length before its end, for the end often lies on a surface. Words are single precision,
 * so a turned frame is a rotation only to some 6e-8, and distances along a ray only to that share of them.
 */
const END_SHARE = 1e-6;

/** Geometric queries for the checks, over the same intersector as the tracer's. */
export function createRayQuery(world: World): RayQuery {
  const intersector = createIntersector(world);
  const emitters = createEmitterSampler(world);
  const { ray, hit, hitIndex, surfaceOf } = intersector;
  const clear = Uint8Array.from({ length: world.primitiveCount }, (_, i) => {
    const finish = world.primitiveWords[i * PRIMITIVE.strideWords + PRIMITIVE.offset.finish];
    return world.finishWords[finish * FINISH.strideWords] === FinishKind.clear ? 1 : 0;
  });

  /** Primitives that let a shadow ray by: clear ones, and those of ignored surfaces. */
  const masks = new WeakMap<(surfaceIndex: number) => boolean, Uint8Array>();
  const passing = (ignore: (surfaceIndex: number) => boolean): Uint8Array => {
    let mask = masks.get(ignore);
    if (!mask) {
      mask = clear.map((isClear, i) => (isClear || ignore(surfaceOf[i]) ? 1 : 0));
      masks.set(ignore, mask);
    }
    return mask;
  };

  const aim = (originM: Vec3, direction: Vec3, tMinM: number, tMaxM: number): void => {
    ray[0] = originM[0];
    ray[1] = originM[1];
    ray[2] = originM[2];
    ray[3] = direction[0];
    ray[4] = direction[1];
    ray[5] = direction[2];
    ray[6] = tMinM;
    ray[7] = tMaxM;
  };

  const read = (): Hit => {
    intersector.normalAtHit();
    const t = hit[0];
    const normal: Vec3 = [hit[1], hit[2], hit[3]];
    const primitiveIndex = hitIndex[0];
    return {
      tM: t,
      pointM: [ray[0] + t * ray[3], ray[1] + t * ray[4], ray[2] + t * ray[5]],
      normal,
      front: ray[3] * normal[0] + ray[4] * normal[1] + ray[5] * normal[2] < 0,
      primitiveIndex,
      surfaceIndex: surfaceOf[primitiveIndex],
    };
  };

  /** Aims along the segment, its ends left out; false where it is too short to hold anything. */
  const aimBetween = (aM: Vec3, bM: Vec3): boolean => {
    const dx = bM[0] - aM[0];
    const dy = bM[1] - aM[1];
    const dz = bM[2] - aM[2];
    const length = Math.hypot(dx, dy, dz);
    if (length < 2 * RAY_START_M) return false;
    aim(aM, [dx / length, dy / length, dz / length], RAY_START_M, length * (1 - END_SHARE) - 2 * RAY_START_M);
    return true;
  };

  return {
    world,
    closestHit(originM, direction, tMaxM = Number.POSITIVE_INFINITY) {
      aim(originM, direction, RAY_START_M, tMaxM);
      return intersector.closest() ? read() : null;
    },
    hitsAlong(originM, direction, tMaxM = Number.POSITIVE_INFINITY, limit = 64) {
      const hits: Hit[] = [];
      let from = RAY_START_M;
      while (hits.length < limit) {
        aim(originM, direction, from, tMaxM);
        if (!intersector.closest()) break;
        const found = read();
        hits.push(found);
        from = found.tM + RAY_START_M;
      }
      return hits;
    },
    blocked(aM, bM, ignore) {
      return aimBetween(aM, bM) && intersector.any(ignore ? passing(ignore) : clear);
    },
    hidden(aM, bM) {
      return aimBetween(aM, bM) && intersector.any();
    },
    sampleEmitter(emitterIndex, u, v) {
      emitters.sample(emitterIndex, u, v);
      const o = emitters.out;
      return { pointM: [o[0], o[1], o[2]], normal: [o[3], o[4], o[5]] };
    },
    emittedNits(emitterIndex, normal, direction) {
      emitters.leaving.set(direction);
      const cos = normal[0] * direction[0] + normal[1] * direction[1] + normal[2] * direction[2];
      return emitters.axialNits[emitterIndex] * emitters.relative(emitterIndex, cos);
    },
  };
}
