import { describe, expect, it } from 'vitest';
import { fromAim, fromHeading } from '../../src/core/rigid.ts';
import { createRandom } from '../../src/core/rng.ts';
import { normalize, type Vec3 } from '../../src/core/vec3.ts';
import type { OpticalSurface } from '../../src/materials/surface.ts';
import { compileWorld, createRayQuery } from '../../src/transport/index.ts';
import {
  CLEAR,
  cylinderShapes,
  levelSquare,
  matte,
  mediumVolume,
  setOf,
  sphereShape,
  surfaceOf,
} from '../helpers/surfaces.ts';

/** Forty turned and flat pieces, thrown about. */
function crowd(seed: number): OpticalSurface[] {
  const random = createRandom(seed);
  const at = (): Vec3 => [random() - 0.5, random() - 0.5, random() - 0.5];
  return Array.from({ length: 40 }, (_, i) => {
    const frame = fromAim(at(), at(), random() * 6);
    const kinds = [
      sphereShape(0.02 + random() * 0.1),
      { type: 'revolvedLine' as const, r0M: random() * 0.1, y0M: 0, r1M: random() * 0.1, y1M: random() * 0.2 },
      { type: 'quad' as const, originM: at(), edgeUM: [0.2, 0, 0] as const, edgeVM: [0.05, 0.2, 0] as const },
      {
        type: 'revolvedArc' as const,
        centreRM: 0.05,
        centreYM: 0,
        radiusM: 0.03,
        angle0Rad: -1,
        angle1Rad: 2,
        azimuth: { startRad: 0.3, endRad: 4 },
      },
      {
        type: 'mesh' as const,
        positionsM: Float32Array.from([0, 0, 0, 0.2, 0, 0, 0, 0.2, 0.05]),
        indices: Uint32Array.of(0, 1, 2),
      },
    ];
    return surfaceOf(`piece ${i}`, kinds[i % kinds.length], matte(0.5), {}, frame);
  });
}

describe('ray queries', () => {
  it('finds through the tree what trying every piece alone finds, on 2000 seeded rays', () => {
    const surfaces = crowd(5);
    const whole = createRayQuery(compileWorld(setOf(surfaces)));
    const alone = surfaces.map((s) => createRayQuery(compileWorld(setOf([s]))));
    const random = createRandom(6);
    let hits = 0;
    for (let i = 0; i < 2000; i++) {
      const origin: Vec3 = [random() * 2 - 1, random() * 2 - 1, random() * 2 - 1];
      const direction = normalize([random() - 0.5, random() - 0.5, random() - 0.5]);
      let best = Number.POSITIVE_INFINITY;
      let owner = -1;
      alone.forEach((query, k) => {
        const hit = query.closestHit(origin, direction);
        if (hit && hit.tM < best) {
          best = hit.tM;
          owner = k;
        }
      });
      const found = whole.closestHit(origin, direction);
      expect(found?.tM ?? Number.POSITIVE_INFINITY).toBe(best);
      if (!found) continue;
      hits++;
      expect(found.surfaceIndex).toBe(owner);
      expect(Math.hypot(...found.normal)).toBeCloseTo(1, 12);
      expect(found.front).toBe(
        found.normal[0] * direction[0] + found.normal[1] * direction[1] + found.normal[2] * direction[2] < 0,
      );
    }
    expect(hits).toBeGreaterThan(100);
  });

  it('meets a thin torus turned by 15 degrees, 0.8 m away, on its front and never again on the way off it', () => {
    const arc = {
      type: 'revolvedArc' as const,
      centreRM: 0.0275,
      centreYM: 0,
      radiusM: 0.0025,
      angle0Rad: -Math.PI,
      angle1Rad: Math.PI,
    };
    const ring = surfaceOf('ring', arc, matte(0.5), {}, fromHeading([0.2, 0, -0.1], (-15 * Math.PI) / 180));
    const query = createRayQuery(compileWorld(setOf([ring])));
    const random = createRandom(9);
    const eye: Vec3 = [0, 0.35, 0.65];
    let hits = 0;
    for (let i = 0; i < 20000; i++) {
      const to: Vec3 = [0.2 + (random() - 0.5) * 0.06, (random() - 0.5) * 0.005, -0.1 + (random() - 0.5) * 0.06];
      const hit = query.closestHit(eye, normalize([to[0] - eye[0], to[1] - eye[1], to[2] - eye[2]]));
      if (!hit) continue;
      hits++;
      expect(hit.front).toBe(true);
      // A ring leaves the way along its own normal free on its outer side, and up.
      if (hit.normal[1] < 0.7) continue;
      expect(query.closestHit(hit.pointM, hit.normal)).toBeNull();
    }
    expect(hits).toBeGreaterThan(1000);
  });

  it('meets a closed glass an even number of times, in and out by turns', () => {
    const surfaces = cylinderShapes(0.035, 0, 0.14).map((s, i) =>
      surfaceOf(`wall ${i}`, s, CLEAR, { backVolume: 'glass' }),
    );
    const query = createRayQuery(compileWorld(setOf(surfaces, [mediumVolume('glass', 1.5)])));
    const random = createRandom(8);
    for (let i = 0; i < 3000; i++) {
      const from = normalize([random() - 0.5, random() - 0.5, random() - 0.5]);
      const to: Vec3 = [(random() - 0.5) * 0.08, random() * 0.16 - 0.01, (random() - 0.5) * 0.08];
      const direction = normalize([to[0] - from[0], to[1] - from[1], to[2] - from[2]]);
      const hits = query.hitsAlong(from, direction);
      expect(hits.length % 2).toBe(0);
      hits.forEach((hit, k) => {
        expect(hit.front).toBe(k % 2 === 0);
      });
    }
  });

  it('lets straight lines through clear glass, and stops them at a card', () => {
    const glass = cylinderShapes(0.035, 0, 0.14).map((s, i) =>
      surfaceOf(`wall ${i}`, s, CLEAR, { backVolume: 'glass' }),
    );
    const card = surfaceOf('card', levelSquare([0, 0.3, 0], 0.2, 'up'), matte(0.8));
    const query = createRayQuery(compileWorld(setOf([...glass, card], [mediumVolume('glass', 1.5)])));
    expect(query.blocked([-1, 0.07, 0], [1, 0.07, 0])).toBe(false);
    expect(query.blocked([0, 1, 0], [0, 0.2, 0])).toBe(true);
    expect(query.blocked([0, 1, 0], [0, 0.2, 0], (s) => query.world.surfaceNames[s].recordId === 'card')).toBe(false);
    expect(query.blocked([0, 1, 0], [0, 0.31, 0])).toBe(false);
  });
});
