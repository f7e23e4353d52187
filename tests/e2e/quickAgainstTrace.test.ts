import { readFileSync } from 'node:fs';
import type { Browser } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { developParams } from '../../src/camera/developParams.ts';
import { cameraView, rayThrough } from '../../src/camera/projection.ts';
import { decodeSrgb, REC709_FROM_REC2020 } from '../../src/core/color/spaces.ts';
import { applyMatrix3 } from '../../src/core/matrix3.ts';
import { parseSetup } from '../../src/document/codec.ts';
import { resolveFrame } from '../../src/document/resolveFrame.ts';
import { layerGains } from '../../src/fixtures/gain.ts';
import { buildSet } from '../../src/scene/buildSet.ts';
import { compileWorld } from '../../src/transport/compile/compileWorld.ts';
import { createPathTracer } from '../../src/transport/cpu/pathTracer.ts';
import { createRayQuery } from '../../src/transport/cpu/rayQuery.ts';
import { launchBrowser } from '../../tools/browser.mjs';
import { openQuickPage, type QuickPage } from './helpers/quickPage.ts';

/*
 * The quick picture against the traced one, both as linear exposure, at a grid of places where the lens sees a matte or gloss
 * surface. The path tracer is held to closed forms and to independent renderers in tests/reference.
 */

const [WIDTH_PX, HEIGHT_PX] = [320, 200];
const [COLUMNS, ROWS] = [14, 9];
const SAMPLES = 64;
const luminance = ([r, g, b]: readonly number[]): number => 0.2126 * r + 0.7152 * g + 0.0722 * b;

interface Place {
  readonly recordId: string;
  readonly quick: number;
  readonly traced: number;
}

async function placesOf(page: QuickPage, demo: string, frameId: string): Promise<Place[]> {
  const setupText = readFileSync(new URL(`../../assets/setups/${demo}.json`, import.meta.url), 'utf8');
  const { bytes } = await page.draw({ setupText, frameId, widthPx: WIDTH_PX, heightPx: HEIGHT_PX, mode: 'linear' });
  const opened = parseSetup(setupText);
  if (!opened.ok) throw new Error(opened.error.message);
  const scene = resolveFrame(opened.value.setup, frameId);
  if (!scene.ok) throw new Error(scene.error[0].message);
  const { camera, fixtures } = scene.value;
  const set = buildSet(scene.value);
  const world = compileWorld(set);
  const view = cameraView(camera, WIDTH_PX / HEIGHT_PX);
  const gains = layerGains(fixtures);
  const { sensorFromNits } = developParams(camera);
  const query = createRayQuery(world);
  const size = { widthPx: WIDTH_PX, heightPx: HEIGHT_PX };
  const tracer = createPathTracer({ world, view, ...size, seed: 3, maxDepth: 12, layerGains: gains });

  /** Mean of three by three pixels by the tracer, linear display values. */
  const traced = (px: number, py: number): number => {
    const sum: [number, number, number] = [0, 0, 0];
    for (let k = 0; k < SAMPLES; k++) {
      const [jx, jy] = [3 * ((k * 0.61803399) % 1) - 1, 3 * ((k * 0.75487767) % 1) - 1];
      const { originM, direction } = rayThrough(view, (px + jx) / WIDTH_PX, (py + jy) / HEIGHT_PX);
      tracer.traceRay(...originM, ...direction, 3, k);
      for (let l = 0; l < world.layerIds.length; l++) {
        for (const c of [0, 1, 2] as const) sum[c] += (tracer.sample[3 * l + c] * gains[3 * l + c]) / SAMPLES;
      }
    }
    return luminance(applyMatrix3(REC709_FROM_REC2020, applyMatrix3(sensorFromNits, sum)));
  };
  const quick = (px: number, py: number): number => {
    const sum: [number, number, number] = [0, 0, 0];
    for (let i = 0; i < 9; i++) {
      const at = 3 * ((py + Math.floor(i / 3) - 1) * WIDTH_PX + px + (i % 3) - 1);
      for (const c of [0, 1, 2] as const) sum[c] += decodeSrgb(bytes[at + c] / 255) / 9;
    }
    return luminance(sum);
  };

  const places: Place[] = [];
  for (let i = 0; i < COLUMNS * ROWS; i++) {
    const px = Math.round((((i % COLUMNS) + 0.5) * WIDTH_PX) / COLUMNS);
    const py = Math.round(((Math.floor(i / COLUMNS) + 0.5) * HEIGHT_PX) / ROWS);
    const { originM, direction } = rayThrough(view, (px + 0.5) / WIDTH_PX, (py + 0.5) / HEIGHT_PX);
    const surface = set.surfaces[query.closestHit(originM, direction)?.surfaceIndex ?? -1];
    if (surface?.finish.type !== 'matte' && surface?.finish.type !== 'gloss') continue;
    places.push({ recordId: surface.recordId, quick: quick(px, py), traced: traced(px, py) });
  }
  return places;
}

/** Quick over traced light of a whole piece, and the middle one of the ratios place by place. */
function compare(places: readonly Place[], recordId: string): { whole: number; median: number } {
  const own = places.filter((place) => place.recordId === recordId);
  expect(own.length, recordId).toBeGreaterThan(20);
  const sum = (pick: (place: Place) => number): number => own.reduce((total, place) => total + pick(place), 0);
  const ratios = own.map((place) => place.quick / place.traced).sort((a, b) => a - b);
  return { whole: sum((p) => p.quick) / sum((p) => p.traced), median: ratios[ratios.length >> 1] };
}

describe('the quick picture beside the traced one', () => {
  let browser: Browser;
  let page: QuickPage;
  beforeAll(async () => {
    browser = await launchBrowser();
    page = await openQuickPage(browser);
  });
  afterAll(async () => {
    await page.close();
    await browser.close();
  });

  it.each([
    ['iced-tea-on-paper-sweep', 'frame:hero', ['piece:sweep']],
    ['tonic-on-gloss-black', 'frame:wide', ['piece:backdrop']],
    ['reed-screen-and-bounce', 'frame:hero', ['piece:wall', 'piece:table']],
    ['hard-noon-slatted-wall', 'frame:hero', ['piece:table']],
    ['blue-hour-lantern', 'frame:hero', ['piece:wall']],
  ] as const)('%s, %s: %j within a tenth, on the whole and at the median place', async (demo, frameId, records) => {
    const places = await placesOf(page, demo, frameId);
    for (const recordId of records) {
      const { whole, median } = compare(places, recordId);
      expect(Math.abs(whole - 1), `${recordId}, whole ${whole}`).toBeLessThan(0.1);
      expect(Math.abs(median - 1), `${recordId}, median ${median}`).toBeLessThan(0.1);
    }
  });
});
