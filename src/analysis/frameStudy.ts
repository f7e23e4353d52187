import { cameraExposure } from '../camera/exposure.ts';
import { measureBackground } from './background/measureBackground.ts';
import type { CheckInput } from './contracts.ts';
import { type CheckCache, createCheckCache } from './keep/checkCache.ts';
import { createBouncePatches, relightBouncePatches } from './light/bouncePatches.ts';
import { createFrameLight, type FrameLight } from './light/frameLight.ts';
import { readMeter } from './light/meterReading.ts';
import { throwingMirrors } from './light/mirroredLight.ts';
import { createScatteredLight, type ScatteredLight } from './light/scatteredLight.ts';
import { createSetPatches } from './light/setBounce.ts';
import { measureCells } from './light/surfaceLight.ts';
import { BLACK_STOPS_UNDER_CLIPPING } from './limits.ts';
import { findBackground } from './places/backgroundPlace.ts';
import { findHeroCells } from './places/heroCells.ts';
import { findHeroPlace } from './places/heroPlace.ts';
import { type GridTracer, gridSize } from './specular/frameGrid.ts';
import { createSpecularTree, type SpecularTreeOptions } from './specular/specularTree.ts';
import { createSurfaceTable, type SurfaceTable } from './specular/surfaceTable.ts';
import { traceFrameGrid } from './specular/traceFrameGrid.ts';
import type { FrameStudy } from './study.ts';

export type { FrameStudy } from './study.ts';

/** Rays of the grid pass; 160 x 90 for a 16:9 frame. */
const GRID_CELLS = 14400;
/** Places on the hero at which its luminance is read. */
const HERO_COLUMNS = 10;
const HERO_ROWS = 14;
/** Light is cached over about this many cells of the grid each way. */
const CACHE_CELLS = 4;
/** Chains that stay this far under black are not followed. */
const END_UNDER_BLACK = 0.1;

/** @param cache what earlier runs left; nothing is kept when left out */
export function createFrameStudy(
  input: CheckInput,
  cache: CheckCache = createCheckCache({ keepsRays: false }),
): FrameStudy {
  cache.begin(input);
  const light = createFrameLight(input);
  const table = createSurfaceTable(input);
  const clippingNits = cameraExposure(input.scene.camera).saturationLuminanceNits;
  const blackNits = clippingNits * 2 ** -BLACK_STOPS_UNDER_CLIPPING;
  const { columns, rows } = gridSize(input.view, GRID_CELLS);
  const sheets = once(() => createBouncePatches(input, light));
  const setPatches = once(() => createSetPatches(input, light, sheets()));
  const patches = once(() =>
    sheets().length === 0
      ? []
      : relightBouncePatches(input, light, sheets(), setPatches(), throwingMirrors(input, table)),
  );
  const cellPerDistance = (CACHE_CELLS * 2 * input.view.tanHalfWidth) / columns;
  const scattered = once(() =>
    createScatteredLight(light, table, patches(), {
      cellPerDistance,
      leastNits: END_UNDER_BLACK * blackNits,
      places: cache.places('scattered'),
      sheets: { places: cache.places('sheets'), patches: setPatches },
    }),
  );
  const tracerOf = (outlinesOnly: boolean): GridTracer =>
    createTracer(input, light, table, scattered(), { blackNits, outlinesOnly, rays: cache.rays ?? undefined });
  const tracer = once(() => tracerOf(false));
  const outlineTracer = once(() => tracerOf(true));
  const hero = once(() => findHeroPlace(input));
  const study: FrameStudy = {
    input,
    light,
    table,
    clippingNits,
    blackNits,
    places: cache.places,
    patches,
    setPatches,
    allPatches: once(() => [...patches(), ...setPatches()]),
    hero,
    heroNits: once(() => {
      const place = hero();
      return place ? measureCells(study, findHeroCells(input, place, HERO_COLUMNS, HERO_ROWS), 'hero').meanNits : 0;
    }),
    meter: once(() => readMeter(study)),
    backgroundPlace: once(() => findBackground(input, hero())),
    background: once(() => {
      const place = study.backgroundPlace();
      return place ? measureBackground(study, place) : null;
    }),
    tracer,
    outlineTracer,
    grid: once(() => traceFrameGrid(tracer(), columns, rows)),
  };
  return study;
}

export const createTracer = (
  input: CheckInput,
  light: FrameLight,
  table: SurfaceTable,
  scattered: ScatteredLight,
  { blackNits, ...rest }: { readonly blackNits: number } & Omit<SpecularTreeOptions, 'endNits'>,
): GridTracer => ({
  view: input.view,
  table,
  tree: createSpecularTree(light, table, scattered, { endNits: blackNits * END_UNDER_BLACK, ...rest }),
});

function once<T>(make: () => T): () => T {
  let made: { value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}
