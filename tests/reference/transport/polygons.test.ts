import { describe, expect, it } from 'vitest';
import { createRandom } from '../../../src/core/rng.ts';
import { add, cross, dot, length, normalize, scale, sub, type Vec3 } from '../../../src/core/vec3.ts';
import { BLACK, levelSquare, matte, setOf, surfaceOf } from '../../helpers/surfaces.ts';
import { traceRays } from '../../helpers/traceRays.ts';

/*
 * Lambert's formula for a polygon of uniform luminance (1760; J. Arvo, 1994, from memory): E = (L / 2) sum theta_i (gamma_i . n),
 * theta_i the angle that edge i fills and gamma_i the unit normal of the plane through the receiver and that edge. Exact
 * for any polygon wholly above the horizon.
 */
function polygonIlluminance(corners: readonly Vec3[], at: Vec3, normal: Vec3, nits: number): number {
  const seen = corners.map((c) => normalize(sub(c, at)));
  let sum = 0;
  seen.forEach((a, i) => {
    const b = seen[(i + 1) % seen.length];
    sum += Math.acos(Math.max(-1, Math.min(1, dot(a, b)))) * dot(normalize(cross(a, b)), normal);
  });
  return Math.abs((nits / 2) * sum);
}

describe("tilted panels against Lambert's polygon formula", () => {
  it('gives the printed value for a 1 x 1 m square 1 m over its centre: form factor 0.2394565', () => {
    const square: Vec3[] = [
      [-0.5, 1, -0.5],
      [0.5, 1, -0.5],
      [0.5, 1, 0.5],
      [-0.5, 1, 0.5],
    ];
    expect(polygonIlluminance(square, [0, 0, 0], [0, 1, 0], 1 / Math.PI)).toBeCloseTo(0.2394565, 6);
  });

  const random = createRandom(31);
  for (let i = 0; i < 6; i++) {
    const centre: Vec3 = [(random() - 0.5) * 1.2, 0.9 + random() * 0.6, (random() - 0.5) * 1.2];
    const toward = normalize(sub([(random() - 0.5) * 0.5, 0, (random() - 0.5) * 0.5], centre));
    const u = scale(normalize(cross(toward, [0.3, 0.2, 1])), 0.2 + random() * 0.4);
    const v = scale(normalize(cross(toward, u)), 0.1 + random() * 0.3);
    it(`panel ${i + 1} of six thrown about, ${(length(u) * 100).toFixed(0)} x ${(length(v) * 100).toFixed(0)} cm, within 1 %`, () => {
      const origin = sub(centre, scale(add(u, v), 0.5));
      const corners = [origin, add(origin, u), add(add(origin, u), v), add(origin, v)];
      const expected = polygonIlluminance(corners, [0, 0, 0], [0, 1, 0], 5000);
      // Normal u x v must look at the card.
      const faces = dot(cross(u, v), toward) > 0;
      const lamp = surfaceOf(
        'lamp',
        faces
          ? { type: 'quad', originM: origin, edgeUM: u, edgeVM: v }
          : { type: 'quad', originM: origin, edgeUM: v, edgeVM: u },
        BLACK,
        { emission: { fixtureId: 'lamp', axialLuminanceNits: 5000, profile: { type: 'lambert' } } },
      );
      const card = surfaceOf('card', levelSquare([0, 0, 0], 0.02, 'up'), matte(0.18));
      const { rgb } = traceRays(setOf([lamp, card]), [0.2, 0.05, 0.1], [-0.2, -0.05, -0.1], 16_384);
      expect(Math.abs((rgb[0] * Math.PI) / 0.18 / expected - 1)).toBeLessThan(0.01);
    });
  }
});
