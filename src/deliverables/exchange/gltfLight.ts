import { rec709FromRec2020 } from '../../core/color/spaces.ts';
import { radFromDeg } from '../../core/units.ts';
import type { Vec3 } from '../../core/vec3.ts';
import { layerGain } from '../../fixtures/gain.ts';
import { photometryFromFixture } from '../../fixtures/photometry.ts';
import type { Fixture } from '../../fixtures/records.ts';
import type { GltfLight } from './gltfTypes.ts';

/** Colour of a light with its brightest channel at 1, linear Rec. 709, and what its candela are multiplied by. */
export function lightColour(fixture: Fixture): { readonly rgb: Vec3; readonly gain: number } {
  const [r, g, b] = rec709FromRec2020(layerGain(fixture)).map((channel) => Math.max(0, channel));
  const gain = Math.max(r, g, b);
  return gain > 0 ? { rgb: [r / gain, g / gain, b / gain], gain } : { rgb: [1, 1, 1], gain: 0 };
}

/**
 * Outer angle of a KHR_lights_punctual cone that falls to half at half the beam angle. The extension's falloff is
 * ((cos a - cos o) / (cos i - cos o))^2; with the inner angle i = 0 and half at a = h: cos o = (cos h - s) / (1 - s),
 * s = sqrt(1/2). At most a right angle, which a beam of 90 degrees and more comes to.
 */
export function outerConeRad(beamAngleRad: number): number {
  const s = Math.SQRT1_2;
  return Math.acos(Math.min(1, Math.max(0, (Math.cos(beamAngleRad / 2) - s) / (1 - s))));
}

/**
 * A light as one point of light with its candela on the axis, dimmer, nets, gels and colour applied (KHR_lights_punctual:
 * candela, lx = cd / d^2). The size of the face, its honeycomb, doors and measured distribution are not in the extension:
 * shadows come out hard, and the falloff across the beam is only near.
 */
export function lightFromFixture(fixture: Fixture): GltfLight {
  const { axialIntensityCd } = photometryFromFixture(fixture);
  const { rgb, gain } = lightColour(fixture);
  const common = { name: fixture.name, color: rgb, intensity: axialIntensityCd * gain } as const;
  switch (fixture.kind) {
    case 'bulb':
    case 'tube':
    case 'lantern':
      return { ...common, type: 'point' };
    case 'panel':
    case 'spot':
      return { ...common, type: 'spot', spot: cone(radFromDeg(fixture.beamAngleDeg)) };
    case 'softbox':
      return { ...common, type: 'spot', spot: cone(radFromDeg(120)) };
    case 'measured':
      return fixture.opening.shape === 'sphere'
        ? { ...common, type: 'point' }
        : { ...common, type: 'spot', spot: cone(radFromDeg(120)) };
  }
}

const cone = (beamAngleRad: number) => ({ innerConeAngle: 0, outerConeAngle: outerConeRad(beamAngleRad) });
