import { describe, expect, it } from 'vitest';
import { applyToDirection } from '../../../src/core/rigid.ts';
import { radFromDeg } from '../../../src/core/units.ts';
import { addScaled, cross, normalize, scale, type Vec3 } from '../../../src/core/vec3.ts';
import { buildFixture } from '../../../src/fixtures/buildFixture.ts';
import { fixtureFrame } from '../../../src/fixtures/placement.ts';
import { measuredFixture, readSample, sampleLight } from '../../fixtures/sampleLightData.ts';
import { setOf, surfaceOf } from '../../helpers/surfaces.ts';
import { traceRays } from '../../helpers/traceRays.ts';

/**
 * A matte sheet of reflectance 0.8, square on at 3 m from a measured light, shows L = 0.8 E / pi with E = I / d^2 (inverse
 * square, CIE S 017). The opening is made 3 cm, so that every point of it is seen in the same direction to 0.3 degrees.
 */
describe('a measured wall washer traced', () => {
  const light = sampleLight('wall-washer.ldt');
  const fixture = measuredFixture(readSample('wall-washer.ldt'), {
    positionM: [0.2, 1.5, -0.4],
    aimM: [0.6, 0.2, 0.3],
    rollDeg: 25,
    opening: { shape: 'rectangle', widthM: 0.03, heightM: 0.03 },
  });

  it.each([
    [0, 0],
    [35, 90],
    [35, 270],
    [50, 45],
    [20, 180],
  ])('lights a sheet at theta %f, C %f with the candela of its formula (0.7 %)', (thetaDeg, phiDeg) => {
    const theta = radFromDeg(thetaDeg);
    const phi = radFromDeg(phiDeg);
    const local: Vec3 = [Math.sin(theta) * Math.cos(phi), Math.sin(theta) * Math.sin(phi), Math.cos(theta)];
    const toward = applyToDirection(fixtureFrame(fixture), local);
    const middle = addScaled(fixture.positionM, toward, 3);
    const side = normalize(cross(toward, [0.3, 1, 0.1]));
    const up = normalize(cross(side, toward));
    // edgeU x edgeV looks back at the light.
    const sheet = surfaceOf(
      'sheet',
      {
        type: 'quad',
        originM: addScaled(addScaled(middle, side, 0.05), up, -0.05),
        edgeUM: scale(side, -0.1),
        edgeVM: scale(up, 0.1),
      },
      { type: 'matte', reflectanceRgb: [0.8, 0.8, 0.8] },
    );
    const eye = addScaled(addScaled(middle, toward, -0.5), side, 0.4);
    const look = normalize([middle[0] - eye[0], middle[1] - eye[1], middle[2] - eye[2]]);
    const set = setOf([...buildFixture(fixture), sheet]);
    const { rgb, error } = traceRays(set, eye, look, 6000);
    const expected = (0.8 * light.intensityCd(theta, phi)) / 9 / Math.PI;
    expect(Math.abs(rgb[1] / expected - 1)).toBeLessThan(Math.max(0.007, (4 * error) / expected));
    expect(error / expected).toBeLessThan(0.01);
  });
});
