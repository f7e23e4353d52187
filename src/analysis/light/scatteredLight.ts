import type { Vec3 } from '../../core/vec3.ts';
import { diffuseReflectanceInside } from '../../materials/fresnel.ts';
import { dielectricReflectance } from '../../transport/kernels/microfacet.ts';
import {
  createPlaceStore,
  type KeptPlace,
  type KeptSide,
  type PlaceStore,
  SHEEN_WORDS,
  type SheetSheen,
} from '../keep/keptPlaces.ts';
import { SurfaceKind, type SurfaceTable } from '../specular/surfaceTable.ts';
import { type BouncePatch, gatherPatches, joinPatches } from './bouncePatch.ts';
import { gatherFacets, gatherSheetSheens } from './facetLight.ts';
import type { FrameLight } from './frameLight.ts';
import { backResponse, gatherForPicture, planeResponse, type Response } from './gatherSource.ts';
import type { SeenPoint } from './seenPoint.ts';

/**
 * Luminance that a surface scatters toward the viewer under direct light and light off the bounce patches, without
 * mirror images. Written to `out` (working RGB, cd/m2).
 */
export interface ScatteredLight {
  readonly out: Float64Array;
  /** @returns the place whose light it showed, null where none was needed */
  find(seen: SeenPoint): KeptPlace | null;
  /** Is a place that was found once still good in this run? */
  holds(place: KeptPlace): boolean;
  /** Shows a place that holds, for a surface and the cosine of the view. */
  show(place: KeptPlace, surfaceIndex: number, cosView: number): void;
}

export interface ScatteredLightOptions {
  /** Edge of a cache cell over the distance from the lens; 0 takes every point for itself. */
  readonly cellPerDistance: number;
  /** Sheen fainter than this is left out, cd/m2. */
  readonly leastNits?: number;
  /** Where light is kept; for itself when left out. */
  readonly places?: PlaceStore;
  /** What else lights bounce cards, cloths and shades, and where that light is kept; asked for with the first of them. */
  readonly sheets?: { readonly places: PlaceStore; readonly patches: () => readonly BouncePatch[] };
}

/**
 * Light is found once per small cell of space and side of a surface, at the first point asked for, and reused within the
 * cell. Shadow edges are therefore as coarse as a cell; means and medians over a few cells are not affected.
 *
 * Matte: L = reflectance E / pi. Translucent: plus transmittance x E on the other side / pi. Matte base under a clear
 * coat of index n: L = T(view) / n^2 x reflectance / (pi (1 - reflectance Ri)) x integral of T(theta) cos L dw, with
 * Fresnel T and the coat's mean reflectance from inside Ri. Rough coats and metals add their GGX sheen
 * (Walter et al. 2007) from the emitters themselves and the sheets.
 */
export function createScatteredLight(
  light: FrameLight,
  table: SurfaceTable,
  patches: readonly BouncePatch[],
  { cellPerDistance, leastNits = 0, places = newStore(light), sheets }: ScatteredLightOptions,
): ScatteredLight {
  const coarse = joinPatches(patches);
  places.setPatches(coarse);
  let sheetPatches: readonly BouncePatch[] | null = null;
  /** Sheets are seen as sources: the set that lights them counts too. */
  const patchesFor = (s: number): readonly BouncePatch[] => {
    if (!sheets || !table.bounces[s]) return coarse;
    if (!sheetPatches) {
      sheetPatches = [...coarse, ...joinPatches(sheets.patches())];
      sheets.places.setPatches(sheetPatches);
    }
    return sheetPatches;
  };
  const storeFor = (s: number): PlaceStore => (sheets && table.bounces[s] ? sheets.places : places);
  const ofSurface = new Map<number, readonly BouncePatch[]>();
  const patchesOfSurface = (s: number): readonly BouncePatch[] => {
    let own = ofSurface.get(s);
    if (!own) {
      own = patches.filter(({ surfaceIndex, mirrored }) => surfaceIndex === s && mirrored);
      ofSurface.set(s, own);
    }
    return own;
  };
  const out = new Float64Array(3);
  const coats = new Map<number, { response: Response; insideReflectance: number }>();
  const coarserOf = Float64Array.from(table.kind, (_, s) => (isDark(table, s) && !table.isRough[s] ? DARK_COARSER : 1));

  const coatOf = (index: number) => {
    let coat = coats.get(index);
    if (!coat) {
      const response: Response = (cos) => (cos > 0 ? cos * (1 - dielectricReflectance(cos, index)) : 0);
      coat = { response, insideReflectance: diffuseReflectanceInside(index) };
      coats.set(index, coat);
    }
    return coat;
  };

  const gather = (
    { pointM, axis }: KeptPlace,
    { lux, reach }: KeptSide,
    response: Response,
    from: readonly BouncePatch[],
    into: Float64Array,
  ): void => {
    for (const picture of light.pictureSources) {
      const { emitterIndex, gainRgb } = picture.source;
      if (Number.isNaN(lux[emitterIndex])) lux[emitterIndex] = gatherForPicture(light, picture, pointM, axis, response);
      for (let k = 0; k < 3; k++) into[k] += lux[emitterIndex] * gainRgb[k];
    }
    if (from.length > 0) gatherPatches(light, from, pointM, axis, response, into, { reach });
  };

  /** Sheen under the gains, by emitter. */
  const gatherSheen = (place: KeptPlace, surfaceIndex: number, into: Float64Array): void => {
    const sheen = places.sheenOf(place);
    const seen = { surfaceIndex, pointM: place.pointM, normal: place.axis, toViewer: place.toViewer };
    for (const picture of light.pictureSources) {
      const at = picture.source.emitterIndex * SHEEN_WORDS;
      const own = sheen.subarray(at, at + SHEEN_WORDS);
      if (Number.isNaN(own[0])) {
        own.fill(0);
        gatherFacets(light, table, seen, picture, own, leastNits);
      }
      for (let k = 0; k < 3; k++) into[k] += own[k];
    }
    place.sheetSheens = patches.length > 0 ? gatherSheetSheens(light, table, seen, patches, leastNits) : NO_SHEENS;
    for (const { rgb } of place.sheetSheens) for (let k = 0; k < 3; k++) into[k] += rgb[k];
  };

  /** What flat mirrors throw on a sheet, as found for the patch that the place is on. */
  const addMirrored = ({ pointM, axis, light: sums }: KeptPlace, s: number): void => {
    let nearest: BouncePatch | null = null;
    let least = Number.POSITIVE_INFINITY;
    for (const patch of patchesOfSurface(s)) {
      const squared = squaredBetween(patch.pointM, pointM);
      if (squared >= least) continue;
      [nearest, least] = [patch, squared];
    }
    if (!nearest?.mirrored) return;
    const isFront = dotOf(axis, nearest.normal) > 0;
    const { front, back } = nearest.mirrored;
    for (let k = 0; k < 3; k++) {
      sums[k] += (isFront ? front : back)[k];
      sums[3 + k] += (isFront ? back : front)[k];
    }
  };

  /** Light on the viewer's side (0..2), on the far side (3..5), sheen (6..8). */
  const lightUp = (place: KeptPlace, s: number): void => {
    const { light: sums, front } = place;
    const kind = table.kind[s];
    sums.fill(0);
    place.isLit = true;
    const from = patchesFor(s);
    if (kind === SurfaceKind.gloss)
      gather(place, front, coatOf(table.coatIndex[s]).response, from, sums.subarray(0, 3));
    else if (kind !== SurfaceKind.metal) gather(place, front, planeResponse, from, sums.subarray(0, 3));
    if (kind === SurfaceKind.translucent)
      gather(place, storeFor(s).backOf(place), backResponse, from, sums.subarray(3, 6));
    if (table.bounces[s]) addMirrored(place, s);
    if (table.isRough[s]) gatherSheen(place, s, sums.subarray(6, 9));
  };

  const show = ({ light: sums }: KeptPlace, s: number, cosine: number): void => {
    const kind = table.kind[s];
    const cosView = Math.max(0, cosine);
    const coatIndex = table.coatIndex[s];
    for (let k = 0; k < 3; k++) {
      const reflectance = table.reflectance[s * 3 + k];
      if (kind === SurfaceKind.gloss) {
        const through = (1 - dielectricReflectance(cosView, coatIndex)) / (coatIndex * coatIndex);
        const base = reflectance / (Math.PI * (1 - reflectance * coatOf(coatIndex).insideReflectance));
        out[k] = through * base * sums[k] + sums[6 + k];
      } else if (kind === SurfaceKind.metal) out[k] = sums[6 + k];
      else out[k] = (reflectance * sums[k] + table.transmittance[s * 3 + k] * sums[3 + k]) / Math.PI;
    }
  };

  return {
    out,
    show,
    holds: (place) => place.isLit && places.isOfThisRun(place),
    find: (seen) => {
      const { surfaceIndex: s, pointM, normal, toViewer } = seen;
      const kind = table.kind[s];
      out.fill(0);
      if (kind === SurfaceKind.end || kind === SurfaceKind.mirror || isBoundary(kind)) return null;
      if (kind === SurfaceKind.metal && !table.isRough[s]) return null;
      const key = cellPerDistance > 0 ? cellKey(seen, cellPerDistance * coarserOf[s], table.isRough[s] === 1) : -1;
      patchesFor(s);
      const place = storeFor(s).at(key, pointM, normal, toViewer);
      if (!place.isLit) lightUp(place, s);
      show(place, s, dotOf(normal, toViewer));
      return key >= 0 ? place : null;
    },
  };
}

const isBoundary = (kind: number): boolean => kind === SurfaceKind.clear || kind === SurfaceKind.frosted;
const NO_SHEENS: readonly SheetSheen[] = [];

function newStore({ query }: FrameLight): PlaceStore {
  const store = createPlaceStore();
  store.begin(1, query.world.emitters.length, null);
  return store;
}

/** What scatters less than this shows no more than a trace of the light on it, and needs less detail. */
const DARK_REFLECTANCE = 0.06;
const DARK_COARSER = 2;

const isDark = ({ reflectance, transmittance }: SurfaceTable, s: number): boolean =>
  [0, 1, 2].every((k) => reflectance[s * 3 + k] + transmittance[s * 3 + k] < DARK_REFLECTANCE);

const squaredBetween = (a: Vec3, b: Vec3): number => (a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2 + (a[2] - b[2]) ** 2;
const dotOf = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

const CELLS_PER_AXIS = 2048;
const LEVELS = 16;
/** A sheen is another from another side: views of a rough surface are told apart, at the cost of how far out cells reach. */
const ROUGH_CELLS_PER_AXIS = 512;
const VIEWS_PER_AXIS = 22;
/** More than either way of counting cells takes up; times all faces and levels it stays under 2^53. */
const KEYS_PER_FACE = ROUGH_CELLS_PER_AXIS ** 3 * VIEWS_PER_AXIS ** 2;

/** Octahedral map of directions, cut into squares (Cigolle et al., JCGT 3(2), 2014). */
function viewCell([x, y, z]: Vec3): number {
  const sum = Math.abs(x) + Math.abs(y) + Math.abs(z);
  const [u, v] = [x / sum, z / sum];
  const [a, b] = y >= 0 ? [u, v] : [(1 - Math.abs(v)) * Math.sign(u), (1 - Math.abs(u)) * Math.sign(v)];
  const at = (t: number): number => Math.min(VIEWS_PER_AXIS - 1, Math.floor(((t + 1) / 2) * VIEWS_PER_AXIS));
  return at(a) * VIEWS_PER_AXIS + at(b);
}

/** Exact integer key of a cell, and of the direction of the view where that counts; -1 where the point lies too far out for one. */
function cellKey(
  { surfaceIndex, front, pointM, detailM, toViewer }: SeenPoint,
  cellPerDistance: number,
  byView: boolean,
): number {
  const level = Math.round(Math.log2(cellPerDistance * detailM)) + LEVELS / 2 + 4;
  if (level < 0 || level >= LEVELS || surfaceIndex >= 4096) return -1;
  const edgeM = 2 ** (level - LEVELS / 2 - 4);
  const perAxis = byView ? ROUGH_CELLS_PER_AXIS : CELLS_PER_AXIS;
  let within = 0;
  for (const coordinate of pointM) {
    const cell = Math.floor(coordinate / edgeM) + perAxis / 2;
    if (cell < 0 || cell >= perAxis) return -1;
    within = within * perAxis + cell;
  }
  if (byView) within = within * VIEWS_PER_AXIS ** 2 + viewCell(toViewer);
  return ((surfaceIndex * 2 + (front ? 1 : 0)) * LEVELS + level) * KEYS_PER_FACE + within;
}
