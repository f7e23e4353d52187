import { LUMINANCE_WEIGHTS_REC2020 } from '../../core/color/spaces.ts';
import type { Vec3 } from '../../core/vec3.ts';
import type { EmitterInfo } from '../../transport/contracts.ts';
import { dielectricReflectance } from '../../transport/kernels/microfacet.ts';
import { gatherFacets } from '../light/facetLight.ts';
import type { FrameLight } from '../light/frameLight.ts';
import type { ScatteredLight } from '../light/scatteredLight.ts';
import { crossSurface, fillingVolume, IN_AIR, type InsideVolumes } from './insideVolumes.ts';
import { SurfaceKind, type SurfaceTable } from './surfaceTable.ts';

/** A light, bounce card or cloth met at the end of a chain of mirror-like events. */
export interface Arrival {
  /** Surface that shines. */
  readonly sourceSurface: number;
  /** First mirror-like or clear surface of the chain. */
  readonly firstSurface: number;
  /** Did the chain go through that first surface, or bounce off it? */
  readonly transmitted: boolean;
  /** Surface that mirrored the light last on the way from the lens, -1 when it only went through things. */
  readonly mirrorSurface: number;
  /** Mirror-like events in the chain; 1 with `transmitted` false is a plain mirror image. */
  readonly events: number;
  /** Luminance that it adds to the ray, cd/m2 under the gains. */
  readonly luminanceNits: number;
}

/** Ray walk through every reflection and refraction. One ray at a time; registers are overwritten by the next. */
export interface SpecularTree {
  /** Luminance of the ray in working RGB, cd/m2: scattered light, lamps in view, and every chain. */
  readonly totalRgb: Float64Array;
  /** Surface of a lamp that the ray meets with no event on the way, or -1. */
  readonly lampInView: { surfaceIndex: number };
  /** First thing met: surface, or -1 for nothing. */
  readonly firstHit: { surfaceIndex: number };
  /**
   * @param onArrival called once per arrival. `chainM` gives the points from the lens to the source, valid in the call.
   */
  follow(originM: Vec3, direction: Vec3, onArrival: (arrival: Arrival, chainM: () => readonly Vec3[]) => void): void;
}

/** Chains end when less than this is left of them, or after this many events. */
const THROUGHPUT_END = 1e-4;
const DEPTH_END = 12;
/** Boundaries that do nothing, passed one after another, before the walk gives up. */
const PASSES_END = 64;
/** Up to this GGX alpha a lobe is narrower than any light on a set, and one mirror ray stands for it. */
export const SMOOTH_ROUGHNESS = 0.03;

/**
 * Exact unpolarised Fresnel at every boundary, total reflection, Beer-Lambert absorption along the way; what a cloudy
 * medium scatters is lost to the chain. Polarisation is
 * forgotten between events. Where the first surface is slightly rough
 * its facets show each lamp blurred; later ones count as smooth.
 *
 * @param endNits chains that could add less than this much luminance are dropped; 0 follows all
 */
export function createSpecularTree(
  light: FrameLight,
  table: SurfaceTable,
  scattered: ScatteredLight,
  endNits: number,
): SpecularTree {
  const { query } = light;
  const brightestNits = light.sources.reduce(
    (most, { emitter, gainRgb }) => Math.max(most, brightestOf(emitter) * Math.max(...gainRgb)),
    0,
  );
  const visible = brightestNits > 0 ? Math.min(0.01, endNits / brightestNits) : 1;
  const throughputEnd = endNits > 0 ? Math.max(THROUGHPUT_END, visible) : THROUGHPUT_END;
  const totalRgb = new Float64Array(3);
  const lampInView = { surfaceIndex: -1 };
  const firstHit = { surfaceIndex: -1 };
  const chain: Vec3[] = [];
  const facets = new Float64Array(3);
  // Set while the ray after a slightly rough surface is walked: the lamps that it meets at once are counted already.
  let lampsTaken = false;
  const [wr, wg, wb] = LUMINANCE_WEIGHTS_REC2020;
  let onArrivalNow: (arrival: Arrival, chainM: () => readonly Vec3[]) => void = () => {};
  let rayOrigin: Vec3 = [0, 0, 0];

  const arrive = (
    sourceSurface: number,
    firstSurface: number,
    transmitted: boolean,
    mirrorSurface: number,
    events: number,
    luminanceNits: number,
    pointM: Vec3,
  ): void => {
    onArrivalNow({ sourceSurface, firstSurface, transmitted, mirrorSurface, events, luminanceNits }, () => [
      rayOrigin,
      ...chain.slice(0, events),
      pointM,
    ]);
  };

  const walk = (
    originM: Vec3,
    direction: Vec3,
    r: number,
    g: number,
    b: number,
    events: number,
    firstSurface: number,
    transmitted: boolean,
    mirrorSurface: number,
    insideAtStart: InsideVolumes,
    travelledAtStartM: number,
  ): void => {
    let inside = insideAtStart;
    let fromM = originM;
    let travelledM = travelledAtStartM;
    for (let pass = 0; pass < PASSES_END; pass++) {
      const hit = query.closestHit(fromM, direction);
      if (!hit) return;
      const s = hit.surfaceIndex;
      if (events === 0 && pass === 0) firstHit.surfaceIndex = s;
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
      if (kind === SurfaceKind.clear) {
        const beyond = crossSurface(table, inside, s, hit.front);
        const beyondFilling = beyond === inside ? filling : fillingVolume(table, beyond);
        const n1 = filling >= 0 ? table.volumeIndex[filling] : 1;
        const n2 = beyondFilling >= 0 ? table.volumeIndex[beyondFilling] : 1;
        if (beyondFilling === filling || n1 === n2) {
          inside = beyond;
          fromM = hit.pointM;
          continue;
        }
        const side = hit.front ? 1 : -1;
        const n: Vec3 = [hit.normal[0] * side, hit.normal[1] * side, hit.normal[2] * side];
        const cosI = Math.min(1, Math.max(0, -(direction[0] * n[0] + direction[1] * n[1] + direction[2] * n[2])));
        const eta = n2 / n1;
        const reflectance = dielectricReflectance(cosI, eta);
        if (events >= DEPTH_END) return;
        chain[events] = hit.pointM;
        const first = events === 0 ? s : firstSurface;
        const most = Math.max(r, g, b);
        if (reflectance * most >= throughputEnd)
          walk(
            hit.pointM,
            mirrored(direction, n, cosI),
            r * reflectance,
            g * reflectance,
            b * reflectance,
            events + 1,
            first,
            events === 0 ? false : transmitted,
            s,
            inside,
            travelledM,
          );
        const rest = 1 - reflectance;
        if (rest * most < throughputEnd) return;
        const cosT = Math.sqrt(Math.max(0, 1 - (1 - cosI * cosI) / (eta * eta)));
        const k = cosI / eta - cosT;
        chain[events] = hit.pointM;
        walk(
          hit.pointM,
          unit([direction[0] / eta + k * n[0], direction[1] / eta + k * n[1], direction[2] / eta + k * n[2]]),
          r * rest,
          g * rest,
          b * rest,
          events + 1,
          first,
          events === 0 ? true : transmitted,
          mirrorSurface,
          beyond,
          travelledM,
        );
        return;
      }

      // Does it shine?
      const sourceIndex = hit.front && !(lampsTaken && events === 1) ? light.sourceOfSurface[s] : -1;
      if (sourceIndex >= 0) {
        const source = light.sources[sourceIndex];
        const nits = query.emittedNits(source.emitterIndex, hit.normal, [-direction[0], -direction[1], -direction[2]]);
        const [er, eg, eb] = [r * nits * source.gainRgb[0], g * nits * source.gainRgb[1], b * nits * source.gainRgb[2]];
        totalRgb[0] += er;
        totalRgb[1] += eg;
        totalRgb[2] += eb;
        if (events === 0) lampInView.surfaceIndex = s;
        else arrive(s, firstSurface, transmitted, mirrorSurface, events, wr * er + wg * eg + wb * eb, hit.pointM);
      }
      if (kind === SurfaceKind.end) return;

      const side = hit.front ? 1 : -1;
      const normal: Vec3 = [hit.normal[0] * side, hit.normal[1] * side, hit.normal[2] * side];
      const toViewer: Vec3 = [-direction[0], -direction[1], -direction[2]];

      // Light that the surface scatters.
      if (kind !== SurfaceKind.mirror) {
        // What is seen by way of a mirror or glass needs half the detail.
        const detailM = events > 0 ? 2 * travelledM : travelledM;
        scattered.find({ surfaceIndex: s, front: hit.front, pointM: hit.pointM, normal, toViewer, detailM });
        // Radiance grows with n^2 on the way in and shrinks by it on the way out: what scatters inside is seen so much less.
        const ratio = filling >= 0 ? 1 / table.volumeIndex[filling] ** 2 : 1;
        const [sr, sg, sb] = [r * ratio * scattered.out[0], g * ratio * scattered.out[1], b * ratio * scattered.out[2]];
        totalRgb[0] += sr;
        totalRgb[1] += sg;
        totalRgb[2] += sb;
        if (events > 0 && table.bounces[s])
          arrive(s, firstSurface, transmitted, mirrorSurface, events, wr * sr + wg * sg + wb * sb, hit.pointM);
      }

      // Its mirror image.
      if (!table.mirrorLike[s] || events >= DEPTH_END) return;
      const first = events === 0 ? s : firstSurface;
      const through = events === 0 ? false : transmitted;
      const bounce = (h: Vec3): void => {
        const cosH = direction[0] * h[0] + direction[1] * h[1] + direction[2] * h[2];
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
        const out = mirrored(direction, h, -cosH);
        if (out[0] * normal[0] + out[1] * normal[1] + out[2] * normal[2] <= 0) return;
        chain[events] = hit.pointM;
        walk(hit.pointM, out, r * fr, g * fg, b * fb, events + 1, first, through, s, inside, travelledM);
      };
      // The first surface, slightly rough: lamps by their own points, all else by one ray.
      const blurred = events === 0 && table.roughness[s] > SMOOTH_ROUGHNESS;
      if (blurred) {
        chain[0] = hit.pointM;
        for (const picture of light.pictureSources) {
          facets.fill(0);
          const seen = { surfaceIndex: s, pointM: hit.pointM, normal, toViewer };
          const lampPointM = gatherFacets(light, table, seen, picture, facets, endNits);
          if (!lampPointM) continue;
          const [fr, fg, fb] = [r * facets[0], g * facets[1], b * facets[2]];
          totalRgb[0] += fr;
          totalRgb[1] += fg;
          totalRgb[2] += fb;
          const { surfaceIndex } = picture.source.emitter;
          arrive(surfaceIndex, s, false, s, 1, wr * fr + wg * fg + wb * fb, lampPointM);
        }
      }
      lampsTaken = blurred;
      bounce(normal);
      lampsTaken = false;
      return;
    }
  };

  return {
    totalRgb,
    lampInView,
    firstHit,
    follow: (originM, direction, onArrival) => {
      totalRgb.fill(0);
      lampInView.surfaceIndex = -1;
      firstHit.surfaceIndex = -1;
      onArrivalNow = onArrival;
      rayOrigin = originM;
      walk(originM, direction, 1, 1, 1, 0, -1, false, -1, IN_AIR, 0);
    },
  };
}

/** Luminance of an emitter in its brightest direction, cd/m2. */
const brightestOf = ({ axialLuminanceNits, profile }: EmitterInfo): number =>
  profile.type === 'table' || profile.type === 'measured'
    ? axialLuminanceNits * profile.relativeLuminance.reduce((most, value) => Math.max(most, value), 1)
    : axialLuminanceNits;

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
