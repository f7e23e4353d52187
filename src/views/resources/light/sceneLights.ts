import { rec2020FromRec709 } from '../../../core/color/spaces.ts';
import { applyToDirection } from '../../../core/rigid.ts';
import { multiply, scale, type Vec3 } from '../../../core/vec3.ts';
import { EDGE_FALLOFF_STEPS } from '../../../fixtures/emittingFace.ts';
import { type LanternFixture, shadeSizesM } from '../../../fixtures/lanternShade.ts';
import { photometryFromFixture } from '../../../fixtures/photometry.ts';
import { fixtureFrame } from '../../../fixtures/placement.ts';
import type { Fixture } from '../../../fixtures/records.ts';
import type { EmissionProfile } from '../../../materials/surface.ts';

/**
 * An emitter as the quick picture and the stage light with it: one flat or round source per fixture, in the same
 * photometric units as the traced picture. A stand-in while things move; the traced picture has the exact surfaces.
 */
export interface SceneLight {
  readonly recordId: string;
  /** `rectangle` and `disc` shine from their front; `sphere` and `tube` all round. */
  readonly kind: 'rectangle' | 'disc' | 'sphere' | 'tube';
  readonly centreM: Vec3;
  /** Half of the extent along each side; for a tube U runs along it and |V| is its radius. */
  readonly halfUM: Vec3;
  readonly halfVM: Vec3;
  /** Unit, toward the lit side; for a tube any direction square to it. */
  readonly normal: Vec3;
  readonly areaM2: number;
  /** Luminance on the axis with every gain applied, working RGB, cd/m2. */
  readonly axialRgbNits: Vec3;
  readonly profile: EmissionProfile;
  /** How much darker the middle of an edge is than the centre, 0..1. */
  readonly edgeFalloff: number;
  /** A card or cloth that sends on the light of others: broad and weak, it is cut half as finely. */
  readonly secondHand: boolean;
  /** The shade of a lantern: it stands before its own bulb, not before itself. */
  readonly isShade?: true;
}

/**
 * Lights of a frame that give light now.
 *
 * @param layerGains fixtures x 3, working RGB: switch, dimmer, colour and solo, in the order of `fixtures`.
 */
export function sceneLights(fixtures: readonly Fixture[], layerGains: Float32Array): SceneLight[] {
  return fixtures.flatMap((fixture, i) => {
    const gain: Vec3 = [layerGains[3 * i], layerGains[3 * i + 1], layerGains[3 * i + 2]];
    if (!(Math.max(...gain) > 0)) return [];
    const light = lightOf(fixture, gain);
    if (fixture.kind !== 'lantern') return [light];
    const inside = thrownBackInside(fixture);
    const bulb = { ...light, axialRgbNits: multiply(light.axialRgbNits, inside) };
    return [bulb, shadeLight(fixture, gain)];
  });
}

/** Share of a bulb's light that the side of its shade meets, from the middle. */
function shareMet(lantern: LanternFixture): number {
  const { heightM } = shadeSizesM(lantern);
  return lantern.shape === 'sphere' ? heightM / lantern.diameterM : heightM / Math.hypot(lantern.diameterM, heightM);
}

/** All light inside a shade over that of the bulb alone: what the cloth throws back goes round until it is lost. */
function thrownBackInside(lantern: LanternFixture): Vec3 {
  const met = shareMet(lantern);
  const r = rec2020FromRec709(scale(lantern.tintRgb, Math.min(lantern.reflectance, 1 - lantern.transmittance)));
  const gathered = (k: 0 | 1 | 2): number => 1 / Math.max(1 - met * r[k], 1e-3);
  return [gathered(0), gathered(1), gathered(2)];
}

/** Mean luminance of a lantern's shade from outside, working RGB, cd/m2. The cloth is taken as evenly lit. */
export function shadeRgbNits(lantern: LanternFixture, gain: Vec3): Vec3 {
  const { fluxLm } = photometryFromFixture(lantern);
  const { heightM } = shadeSizesM(lantern);
  const passed = rec2020FromRec709(scale(lantern.tintRgb, lantern.transmittance));
  const areaM2 = Math.PI * lantern.diameterM * heightM;
  const inside = multiply(multiply(gain, thrownBackInside(lantern)), passed);
  return scale(inside, (fluxLm * shareMet(lantern)) / (Math.PI * areaM2));
}

function shadeLight(lantern: LanternFixture, gain: Vec3): SceneLight {
  const { heightM } = shadeSizesM(lantern);
  const frame = fixtureFrame(lantern);
  const radiusM = lantern.diameterM / 2;
  const common = {
    recordId: lantern.id,
    centreM: lantern.positionM,
    normal: applyToDirection(frame, [0, 0, 1]),
    axialRgbNits: shadeRgbNits(lantern, gain),
    profile: { type: 'lambert' },
    edgeFalloff: 0,
    secondHand: false,
    isShade: true,
  } as const;
  return lantern.shape === 'sphere'
    ? {
        ...common,
        kind: 'sphere',
        halfUM: [radiusM, 0, 0],
        halfVM: [0, radiusM, 0],
        areaM2: 4 * Math.PI * radiusM ** 2,
      }
    : {
        ...common,
        kind: 'tube',
        halfUM: applyToDirection(frame, [0, heightM / 2, 0]),
        halfVM: applyToDirection(frame, [radiusM, 0, 0]),
        areaM2: Math.PI * lantern.diameterM * heightM,
      };
}

function lightOf(fixture: Fixture, gain: Vec3): SceneLight {
  const { face, profile, axialLuminanceNits, emittingAreaM2 } = photometryFromFixture(fixture);
  const frame = fixtureFrame(fixture);
  const axis = (d: Vec3): Vec3 => applyToDirection(frame, d);
  const common = {
    recordId: fixture.id,
    centreM: fixture.positionM,
    areaM2: emittingAreaM2,
    axialRgbNits: scale(gain, axialLuminanceNits),
    profile,
    edgeFalloff: 0,
    secondHand: false,
  };
  switch (face.type) {
    case 'patches': {
      const halfWidthM = Math.max(...face.patches.map((patch) => patch.x1M));
      const halfHeightM = Math.max(...face.patches.map((patch) => patch.y1M));
      const edgeFalloff = fixture.kind === 'softbox' ? fixture.edgeFalloff : 0;
      return {
        ...common,
        kind: 'rectangle',
        halfUM: axis([halfWidthM, 0, 0]),
        halfVM: axis([0, halfHeightM, 0]),
        normal: axis([0, 0, 1]),
        edgeFalloff,
        // The face states its luminance as the mean over its middle patch; the law here starts from its very centre.
        axialRgbNits: scale(common.axialRgbNits, 1 / (1 - edgeFalloff / (3 * EDGE_FALLOFF_STEPS)) ** 2),
      };
    }
    case 'disc':
    case 'sphere':
      return {
        ...common,
        kind: face.type,
        halfUM: axis([face.radiusM, 0, 0]),
        halfVM: axis([0, face.radiusM, 0]),
        normal: axis([0, 0, 1]),
      };
    case 'cylinder':
      return {
        ...common,
        kind: 'tube',
        halfUM: axis([face.lengthM / 2, 0, 0]),
        halfVM: axis([0, face.radiusM, 0]),
        normal: axis([0, 0, 1]),
      };
  }
}
