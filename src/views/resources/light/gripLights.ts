import { rec2020FromRec709 } from '../../../core/color/spaces.ts';
import { applyToDirection, applyToPoint } from '../../../core/rigid.ts';
import { multiply, negate, scale, type Vec3 } from '../../../core/vec3.ts';
import { fixtureFrame } from '../../../fixtures/placement.ts';
import type { GripItem } from '../../../fixtures/records.ts';
import { directIlluminance, type ShadedLight } from './directIlluminance.ts';
import type { SceneLight } from './sceneLights.ts';

/** Cells per side of the lights while a card is lit, and points per side of the card at which it is lit. */
const CELLS = 3;
const POINTS = 3;

/**
 * Cards and diffusion cloths as lights: each side is Lambertian with the mean of what falls on it,
 * L = (reflectance x E on this side + transmittance x E on the other) / pi. Flags give none.
 */
export function gripLights(grip: readonly GripItem[], lights: readonly ShadedLight[]): SceneLight[] {
  return grip.flatMap((item): SceneLight[] => {
    const response = responseOf(item);
    if (!response) return [];
    const front = meanIlluminance(item, lights, 1);
    const back = meanIlluminance(item, lights, -1);
    const side = (sign: 1 | -1): SceneLight => {
      const [here, there] = sign === 1 ? [front, back] : [back, front];
      const reflected = multiply(here, response.reflectance);
      const passed = multiply(there, response.transmittance);
      const frame = fixtureFrame(item);
      const normal = applyToDirection(frame, [0, 0, 1]);
      return {
        recordId: item.id,
        kind: 'rectangle',
        centreM: item.positionM,
        halfUM: applyToDirection(frame, [item.widthM / 2, 0, 0]),
        halfVM: applyToDirection(frame, [0, item.heightM / 2, 0]),
        normal: sign === 1 ? normal : negate(normal),
        areaM2: item.widthM * item.heightM,
        axialRgbNits: scale(
          [reflected[0] + passed[0], reflected[1] + passed[1], reflected[2] + passed[2]],
          1 / Math.PI,
        ),
        profile: LAMBERT,
        edgeFalloff: 0,
        secondHand: true,
      };
    };
    return [side(1), side(-1)].filter(({ axialRgbNits }) => Math.max(...axialRgbNits) > 0);
  });
}

const LAMBERT = { type: 'lambert' } as const;

interface SheetResponse {
  readonly reflectance: Vec3;
  readonly transmittance: Vec3;
}

function responseOf(item: GripItem): SheetResponse | null {
  switch (item.kind) {
    case 'flag':
      return null;
    case 'bounceCard':
      return { reflectance: rec2020FromRec709(item.reflectanceRgb), transmittance: [0, 0, 0] };
    case 'diffusionFrame': {
      const { transmittance: t } = item;
      const r = Math.min(item.reflectance, 1 - t);
      return { reflectance: [r, r, r], transmittance: [t, t, t] };
    }
  }
}

function meanIlluminance(item: GripItem, lights: readonly ShadedLight[], sign: 1 | -1): Vec3 {
  const frame = fixtureFrame(item);
  const normal = applyToDirection(frame, [0, 0, sign]);
  const sum: [number, number, number] = [0, 0, 0];
  for (let i = 0; i < POINTS; i++) {
    for (let j = 0; j < POINTS; j++) {
      const at = applyToPoint(frame, [
        ((2 * i + 1) / POINTS - 1) * (item.widthM / 2),
        ((2 * j + 1) / POINTS - 1) * (item.heightM / 2),
        0,
      ]);
      const e = directIlluminance(lights, at, normal, item.id, CELLS);
      for (const k of [0, 1, 2] as const) sum[k] += e[k] / (POINTS * POINTS);
    }
  }
  return sum;
}
