import type { World } from '../contracts.ts';
import { VOLUME } from '../layout/schema.ts';

/** What space itself does with light between two surfaces. Index -1 is air, which does nothing. */
export interface MediumKernel {
  /** Per channel, after `travel`: what is left of the light, divided by the chance of what happened. */
  readonly weight: Float64Array;
  /** Distance to the collision, after `travel` returned true. */
  readonly collision: Float64Array;
  readonly scatters: Uint8Array;
  index(medium: number): number;
  /**
   * Light goes `t` metres through `medium`. In a cloudy one it may be scattered on the way (true): the distance is drawn for
   * a channel chosen in proportion to what it carries, and the chance of all channels is divided out, so no channel's
   * colour costs another noise (balance over channels: Wilkie et al., "Hero Wavelength Spectral Sampling", EGSR 2014).
   */
  travel(medium: number, t: number, br: number, bg: number, bb: number, choose: number, u: number): boolean;
  /** Turns unit direction at ray[3..5] by the phase function of Henyey and Greenstein (ApJ 93, 70, 1941). */
  scatter(medium: number, ray: Float64Array, u: number, v: number): void;
  /** Value (and density, 1/sr) of the phase function for the cosine between the way in and the way on. */
  phase(medium: number, cos: number): number;
  /** One over the scattering coefficient of a channel, metres; 0 where there is none. */
  perScattering(medium: number, channel: number): number;
  /** Mean over channels of the coefficient of collision, 1/m. */
  extinction(medium: number): number;
}

export function createMediumKernel(world: World): MediumKernel {
  const count = world.volumes.length;
  const w = Float64Array.from(world.volumeWords);
  const S = VOLUME.strideWords;
  const at = VOLUME.offset;
  const scatters = Uint8Array.from({ length: count }, (_, i) =>
    w[i * S + at.sr] + w[i * S + at.sg] + w[i * S + at.sb] > 0 ? 1 : 0,
  );
  const weight = Float64Array.of(1, 1, 1);
  const collision = new Float64Array(1);

  const phase = (medium: number, cos: number): number => {
    const g = w[medium * S + at.anisotropy];
    const d = 1 + g * g - 2 * g * cos;
    return (1 - g * g) / (4 * Math.PI * d * Math.sqrt(d));
  };

  return {
    weight,
    collision,
    scatters,
    index: (medium) => (medium < 0 ? 1 : w[medium * S + at.index]),
    travel(medium, t, br, bg, bb, choose, u) {
      const o = medium * S;
      const tr = w[o + at.ar] + w[o + at.sr];
      const tg = w[o + at.ag] + w[o + at.sg];
      const tb = w[o + at.ab] + w[o + at.sb];
      if (scatters[medium] === 0) {
        weight[0] = Math.exp(-tr * t);
        weight[1] = Math.exp(-tg * t);
        weight[2] = Math.exp(-tb * t);
        return false;
      }
      const sum = br + bg + bb;
      const pr = sum > 0 ? br / sum : 1 / 3;
      const pg = sum > 0 ? bg / sum : 1 / 3;
      const pb = 1 - pr - pg;
      const sigma = choose < pr ? tr : choose < pr + pg ? tg : tb;
      const d = sigma > 0 ? -Math.log(1 - u) / sigma : Number.POSITIVE_INFINITY;
      const hit = d < t;
      const length = hit ? d : t;
      const er = Math.exp(-tr * length);
      const eg = Math.exp(-tg * length);
      const eb = Math.exp(-tb * length);
      if (hit) {
        const density = pr * tr * er + pg * tg * eg + pb * tb * eb;
        weight[0] = (w[o + at.sr] * er) / density;
        weight[1] = (w[o + at.sg] * eg) / density;
        weight[2] = (w[o + at.sb] * eb) / density;
        collision[0] = d;
        return true;
      }
      const chance = pr * er + pg * eg + pb * eb;
      weight[0] = er / chance;
      weight[1] = eg / chance;
      weight[2] = eb / chance;
      return false;
    },
    scatter(medium, ray, u, v) {
      const g = w[medium * S + at.anisotropy];
      let cos: number;
      if (Math.abs(g) < 1e-3) cos = 1 - 2 * u;
      else {
        const s = (1 - g * g) / (1 - g + 2 * g * u);
        cos = (1 + g * g - s * s) / (2 * g);
      }
      const sin = Math.sqrt(Math.max(0, 1 - cos * cos));
      const phi = 2 * Math.PI * v;
      const x = ray[3];
      const y = ray[4];
      const z = ray[5];
      const sign = z >= 0 ? 1 : -1;
      const a = -1 / (sign + z);
      const b = x * y * a;
      const c = sin * Math.cos(phi);
      const s2 = sin * Math.sin(phi);
      ray[3] = c * (1 + sign * x * x * a) + s2 * b + cos * x;
      ray[4] = c * sign * b + s2 * (sign + y * y * a) + cos * y;
      ray[5] = -c * sign * x - s2 * y + cos * z;
    },
    phase,
    perScattering: (medium, channel) => {
      const sigma = w[medium * S + at.sr + channel];
      return sigma > 0 ? 1 / sigma : 0;
    },
    extinction: (medium) => {
      const o = medium * S;
      let sum = 0;
      for (let k = 0; k < 3; k++) sum += w[o + at.ar + k] + w[o + at.sr + k];
      return sum / 3;
    },
  };
}
