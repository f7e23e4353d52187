import type { Vec3 } from '../../core/vec3.ts';
import { dielectricReflectance, ggxDensity, ggxShadowing } from '../../transport/kernels/microfacet.ts';
import type { SheetSheen } from '../keep/keptPlaces.ts';
import { SurfaceKind, type SurfaceTable } from '../specular/surfaceTable.ts';
import type { BouncePatch } from './bouncePatch.ts';
import type { FrameLight, PictureSource } from './frameLight.ts';
import type { SeenPoint } from './seenPoint.ts';

/** Points on the emitter per width of the lobe. */
const POINTS_PER_LOBE = 1.5;
const MOST_PER_SIDE = 10;

/**
 * Luminance that the facets of a rough coat or metal show of one emitter: the integral over the emitter of
 * L D G F cos(emitter) / (4 cos(view) distance^2), with visibility (Walter et al., EGSR 2007; G height-correlated). Light by way
 * of glass counts as if it ran straight, and apart, for what is bent shows no image there.
 * Added to `into` (working RGB, cd/m2 under the gain, and the part of it that no glass is in the way of).
 *
 * @param leastNits points are left out whose sum must stay under this
 * @returns the point of the emitter that gives most, or null when none is seen
 */
export function gatherFacets(
  light: FrameLight,
  table: SurfaceTable,
  seen: Pick<SeenPoint, 'surfaceIndex' | 'pointM' | 'normal' | 'toViewer'>,
  { source, samples: given }: PictureSource,
  into: Float64Array,
  leastNits: number,
): Vec3 | null {
  const s = seen.surfaceIndex;
  const { pointM, normal, toViewer } = seen;
  const alpha = table.roughness[s];
  const cosView = Math.max(1e-3, dotOf(normal, toViewer));
  const isMetal = table.kind[s] === SurfaceKind.metal;
  const samples = given ?? light.samplesOf(source, perSideForLobe(source, pointM, alpha));
  const leastFlux = leastNits / samples.pointsM.length / Math.max(...source.gainRgb);
  let most = 0;
  let [all, unbent] = [0, 0];
  let bestM: Vec3 | null = null;
  for (let i = 0; i < samples.pointsM.length; i++) {
    const p = samples.pointsM[i];
    const n = samples.normals[i];
    const d: Vec3 = [p[0] - pointM[0], p[1] - pointM[1], p[2] - pointM[2]];
    const squared = dotOf(d, d);
    const inverse = 1 / Math.sqrt(squared);
    const cosLight = dotOf(d, normal) * inverse;
    const cosEmitter = -dotOf(d, n) * inverse;
    if (cosLight <= 0 || cosEmitter <= 0) continue;
    const h: Vec3 = [d[0] * inverse + toViewer[0], d[1] * inverse + toViewer[1], d[2] * inverse + toViewer[2]];
    const hLength = Math.sqrt(dotOf(h, h));
    const density = ggxDensity(dotOf(h, normal) / hLength, alpha);
    const cosHalf = dotOf(h, toViewer) / hLength;
    const nits = light.query.emittedNits(source.emitterIndex, n, [-d[0] * inverse, -d[1] * inverse, -d[2] * inverse]);
    const shape = (density * ggxShadowing(cosView, cosLight, alpha)) / (4 * cosView);
    const flux = (nits * shape * cosEmitter * samples.areaEachM2) / squared;
    const coat = isMetal ? 1 : dielectricReflectance(cosHalf, table.coatIndex[s]);
    if (flux * coat <= leastFlux || light.query.blocked(pointM, p)) continue;
    all += flux;
    if (!light.query.hidden(pointM, p)) unbent += flux;
    if (flux > most) {
      most = flux;
      bestM = p;
    }
    for (let k = 0; k < 3; k++) {
      const r = table.reflectance[s * 3 + k];
      const fresnel = isMetal ? r + (1 - r) * (1 - cosHalf) ** 5 : coat;
      into[k] += flux * fresnel * source.gainRgb[k];
    }
  }
  into[3] = all > 0 ? unbent / all : 0;
  return bestM;
}

/**
 * The same for bounce cards, cloths and shades, by their patches: L D G F cos(patch) area / (4 cos(view) distance^2), what hides
 * a patch counted at its middle. One entry for each record that adds something.
 */
export function gatherSheetSheens(
  light: FrameLight,
  table: SurfaceTable,
  { surfaceIndex: s, pointM, normal, toViewer }: Pick<SeenPoint, 'surfaceIndex' | 'pointM' | 'normal' | 'toViewer'>,
  patches: readonly BouncePatch[],
  leastNits: number,
): SheetSheen[] {
  const alpha = table.roughness[s];
  const cosView = Math.max(1e-3, dotOf(normal, toViewer));
  const isMetal = table.kind[s] === SurfaceKind.metal;
  const byRecord = new Map<
    number,
    { surfaceIndex: number; pointM: Vec3; rgb: Float64Array; most: number; all: number; unbent: number }
  >();
  for (const patch of patches) {
    const p = patch.pointM;
    const d: Vec3 = [p[0] - pointM[0], p[1] - pointM[1], p[2] - pointM[2]];
    const squared = dotOf(d, d);
    const inverse = 1 / Math.sqrt(squared);
    const cosLight = dotOf(d, normal) * inverse;
    const cosPatch = dotOf(d, patch.normal) * inverse;
    if (!(cosLight > 0) || squared < 1e-8) continue;
    const nits = cosPatch < 0 ? patch.frontTotal : patch.backTotal;
    if (nits[0] + nits[1] + nits[2] <= 0) continue;
    const h: Vec3 = [d[0] * inverse + toViewer[0], d[1] * inverse + toViewer[1], d[2] * inverse + toViewer[2]];
    const hLength = Math.sqrt(dotOf(h, h));
    const cosHalf = dotOf(h, toViewer) / hLength;
    const shape =
      (ggxDensity(dotOf(h, normal) / hLength, alpha) * ggxShadowing(cosView, cosLight, alpha)) / (4 * cosView);
    const solidAngleSr = Math.min((Math.abs(cosPatch) * patch.areaM2) / squared, 2 * Math.PI);
    const coat = isMetal ? 1 : dielectricReflectance(cosHalf, table.coatIndex[s]);
    const share = shape * solidAngleSr;
    const most = share * coat * Math.max(nits[0], nits[1], nits[2]);
    if (most * patches.length <= leastNits || light.query.blocked(pointM, p)) continue;
    const record = table.record[patch.surfaceIndex];
    let sum = byRecord.get(record);
    if (!sum) {
      sum = { surfaceIndex: patch.surfaceIndex, pointM: p, rgb: new Float64Array(3), most: 0, all: 0, unbent: 0 };
      byRecord.set(record, sum);
    }
    sum.all += most;
    if (!light.query.hidden(pointM, p)) sum.unbent += most;
    if (most > sum.most) {
      sum.most = most;
      sum.pointM = p;
    }
    for (let k = 0; k < 3; k++) {
      const r = table.reflectance[s * 3 + k];
      const fresnel = isMetal ? r + (1 - r) * (1 - cosHalf) ** 5 : coat;
      sum.rgb[k] += share * fresnel * nits[k];
    }
  }
  return [...byRecord.values()].map(({ surfaceIndex, pointM: bestM, rgb, all, unbent }) => ({
    surfaceIndex,
    pointM: bestM,
    rgb,
    unbent: unbent / all,
  }));
}

/** A lobe is about twice alpha wide, in radians. */
function perSideForLobe(source: PictureSource['source'], pointM: Vec3, alpha: number): number {
  const c = source.emitter.centreM;
  const distanceM = Math.hypot(c[0] - pointM[0], c[1] - pointM[1], c[2] - pointM[2]);
  const lobes = source.sizeM / (distanceM + 1e-6) / (2 * alpha);
  const wanted = Math.ceil(2 * POINTS_PER_LOBE * lobes);
  return Math.min(MOST_PER_SIDE, Math.max(3, source.fewestPerSide, wanted));
}

const dotOf = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
