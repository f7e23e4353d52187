/**
 * How the cost of a camera path grows with the set, in one run: `npx tsx bench/scaling.ts [--rounds 5] [--size 128]`.
 *
 * One thread, processor time, no wall clock. In each round every variant traces 8 samples of every pixel (one set of
 * photons), turn by turn, so that a busy machine is busy for all; the median of the rounds is printed, and its ratio to
 * the first variant.
 */
import { readdirSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { cameraView } from '../src/camera/projection.ts';
import type { CameraView } from '../src/camera/view.ts';
import { fromAim, IDENTITY } from '../src/core/rigid.ts';
import { addScaled, type Vec3 } from '../src/core/vec3.ts';
import { layerGains } from '../src/fixtures/gain.ts';
import type { OpticalSurface } from '../src/materials/surface.ts';
import { buildSet } from '../src/scene/buildSet.ts';
import type { SetModel } from '../src/scene/setModel.ts';
import { compileWorld, createFilm, createTracerFor, traceTile, type World } from '../src/transport/index.ts';
import { TABLETOP_N, tabletopSet, tabletopView } from '../tests/reference/tabletop/scene.ts';
import { openFrame } from '../tools/cli/openFrame.ts';

const GROUP_SAMPLES = 8;
const { values } = parseArgs({
  options: { rounds: { type: 'string', default: '5' }, size: { type: 'string', default: '128' } },
});
const rounds = Number(values.rounds);
const size = Number(values.size);

interface Variant {
  readonly name: string;
  readonly world: World;
  readonly view: CameraView;
  readonly gains?: Float32Array;
  readonly heightPx?: number;
  readonly photonsPerPass?: number;
}

const tabletop = tabletopSet(TABLETOP_N);
const isPanel = (surface: OpticalSurface): boolean => surface.emission !== undefined;
const inHand = new Set(['base', 'backdrop']);

/** The tabletop under `count` panels of .26 m in a ring over it. */
function underPanels(count: number): SetModel {
  const ids = Array.from({ length: count }, (_, i) => `panel-${i}`);
  const panels = ids.map((fixtureId, i): OpticalSurface => {
    const turn = (2 * Math.PI * i) / count + 0.4;
    const centre: Vec3 = [0.9 * Math.cos(turn), 0.9, 0.7 * Math.sin(turn)];
    return {
      recordId: fixtureId,
      role: 'panel',
      shape: { type: 'quad', originM: [-0.13, -0.13, 0], edgeUM: [0.26, 0, 0], edgeVM: [0, 0.26, 0] },
      worldFromLocal: fromAim(centre, [0, 0.07, 0]),
      finish: { type: 'black' },
      emission: { fixtureId, axialLuminanceNits: 10, profile: { type: 'lambert' } },
    };
  });
  return {
    ...tabletop,
    surfaces: [...tabletop.surfaces.filter((s) => !isPanel(s)), ...panels],
    layerFixtureIds: ids,
  };
}

/** The tabletop with `count` tumblers in rows of four, all in the frame. */
function withGlasses(count: number): SetModel {
  const glass = tabletop.surfaces.filter((s) => !isPanel(s) && !inHand.has(s.recordId));
  const rest = tabletop.surfaces.filter((s) => isPanel(s) || inHand.has(s.recordId));
  const glasses = Array.from({ length: count }, (_, i) => {
    const place: Vec3 =
      count === 1 ? [0, 0, 0] : [((i % 4) - (Math.min(count, 4) - 1) / 2) * 0.074, 0, 0.1 - Math.floor(i / 4) * 0.12];
    return glass.map(
      (s): OpticalSurface => ({
        ...s,
        recordId: `tumbler-${i}`,
        worldFromLocal: { ...IDENTITY, translationM: addScaled(s.worldFromLocal.translationM, place, 1) },
        ...(s.frontVolume ? { frontVolume: `${s.frontVolume}-${i}` } : {}),
        ...(s.backVolume ? { backVolume: `${s.backVolume}-${i}` } : {}),
      }),
    );
  });
  const volumes = glasses.flatMap((_, i) => tabletop.volumes.map((v) => ({ ...v, id: `${v.id}-${i}` })));
  return { ...tabletop, surfaces: [...rest, ...glasses.flat()], volumes };
}

function compare(title: string, variants: readonly Variant[]): void {
  const runs = variants.map(({ name, world, view, gains, heightPx = size, photonsPerPass }) => {
    const layers = world.layerIds.length;
    const tracer = createTracerFor({
      world,
      view,
      widthPx: size,
      heightPx,
      seed: 1,
      samplesPerPixel: GROUP_SAMPLES,
      maxDepth: 24,
      layerGains: gains ?? new Float32Array(layers * 3).fill(1),
      ...(photonsPerPass === undefined ? {} : { photonsPerPass }),
    });
    const paths = size * heightPx * GROUP_SAMPLES;
    let group = 1;
    const microsecondsPerPath = (): number => {
      const start = process.cpuUsage();
      const { dropped } = traceTile(tracer, layers, {
        x: 0,
        y: 0,
        widthPx: size,
        heightPx,
        firstSample: GROUP_SAMPLES * group++,
        samples: GROUP_SAMPLES,
      });
      if (dropped > 0) throw new Error(`${name}: ${dropped} samples dropped`);
      return process.cpuUsage(start).user / paths;
    };
    microsecondsPerPath();
    return { name, microsecondsPerPath, each: [] as number[] };
  });
  for (let round = 0; round < rounds; round++) for (const run of runs) run.each.push(run.microsecondsPerPath());
  console.log(`\n${title}`);
  const first = median(runs[0].each);
  for (const { name, each } of runs) {
    const middle = median(each);
    console.log(
      `  ${name.padEnd(36)} ${middle.toFixed(2).padStart(6)} us a camera path (${Math.min(...each).toFixed(2)} to ` +
        `${Math.max(...each).toFixed(2)})  ${(1000 / middle).toFixed(0).padStart(4)} thousand a second  x ${(middle / first).toFixed(2)}`,
    );
  }
}

function median(list: readonly number[]): number {
  const sorted = [...list].sort((a, b) => a - b);
  const half = sorted.length / 2;
  return (sorted[Math.floor(half)] + sorted[Math.ceil(half) - 1]) / 2;
}

/** Bytes that a layer adds to a film of 1920 x 1280, and what it holds besides. */
function measureFilm(): void {
  const pixels = 1920 * 1280;
  const bytesOf = (layers: number): number => {
    const ids = Array.from({ length: layers }, (_, i) => `fixture:${i}`);
    const { layers: kept, ...rest } = createFilm(1920, 1280, ids);
    const arrays = [...kept, ...Object.values(rest)].filter((v) => ArrayBuffer.isView(v));
    return arrays.reduce((sum, array) => sum + array.byteLength, 0);
  };
  const one = bytesOf(1);
  const perLayer = (bytesOf(9) - one) / 8;
  const mb = (bytes: number): string => (bytes / 1e6).toFixed(1);
  console.log(
    `\nFilm of 1920 x 1280: ${mb(perLayer)} MB a layer (${(perLayer / pixels).toFixed(1)} bytes a pixel), ` +
      `${mb(one - perLayer)} MB for all else (${((one - perLayer) / pixels).toFixed(1)} bytes a pixel)`,
  );
}

console.log(`node ${process.version} ${process.arch}, one thread, median of ${rounds} rounds, ${size} pixels wide`);
compare(
  'Panels over the tabletop',
  [1, 2, 4, 8].map((n) => ({ name: `${n} fixtures`, world: compileWorld(underPanels(n)), view: tabletopView() })),
);
compare(
  'Tumblers on the tabletop, two panels',
  [1, 2, 4, 8, 16].map((n) => {
    const world = compileWorld(withGlasses(n));
    return { name: `${n} glasses, ${world.primitiveCount} shapes`, world, view: tabletopView() };
  }),
);
interface Demo extends Variant {
  readonly file: string;
  readonly surfaces: number;
  readonly buildMs: number;
  readonly compileMs: number;
  readonly megabytes: number;
}

const SETUPS = new URL('../assets/setups/', import.meta.url).pathname;

/** First frame of a demo: what it takes to make its world, and how large that is. Processor time, median of the rounds. */
function readDemo(file: string): Demo {
  const { scene } = openFrame(`${SETUPS}${file}`, undefined);
  const buildMs: number[] = [];
  const compileMs: number[] = [];
  let set = buildSet(scene);
  let world = compileWorld(set);
  for (let round = 0; round < rounds; round++) {
    const start = process.cpuUsage();
    set = buildSet(scene);
    const between = process.cpuUsage(start).user;
    world = compileWorld(set);
    buildMs.push(between / 1000);
    compileMs.push((process.cpuUsage(start).user - between) / 1000);
  }
  const bytes = Object.values(world).reduce((sum, v) => sum + (ArrayBuffer.isView(v) ? v.byteLength : 0), 0);
  return {
    file,
    name: file.replace('.json', ''),
    surfaces: set.surfaces.length,
    buildMs: median(buildMs),
    compileMs: median(compileMs),
    megabytes: bytes / 1e6,
    world,
    view: cameraView(scene.camera, 1.5),
    heightPx: Math.round(size / 1.5),
    gains: layerGains(scene.fixtures),
  };
}

/** As many photons as a frame of 960 x 640 has for each of its paths. */
const shareOfPhotons = (heightPx: number): number => Math.round((60_000 / (960 * 640)) * size * heightPx);

const FIRST_DEMO = 'tonic-on-gloss-black.json';
const demos = readdirSync(SETUPS)
  .filter((file) => file.endsWith('.json') && !file.endsWith('-wrong.json'))
  .map(readDemo)
  .sort((a, b) => Number(b.file === FIRST_DEMO) - Number(a.file === FIRST_DEMO) || a.file.localeCompare(b.file));
console.log('\nWorlds of the demos, first frame of each, the set built anew (packed ice is remembered)');
for (const demo of demos)
  console.log(
    `  ${demo.name.padEnd(26)} ${String(demo.surfaces).padStart(5)} surfaces ${String(demo.world.primitiveCount).padStart(7)} shapes  ` +
      `${demo.buildMs.toFixed(0).padStart(4)} ms to build  ${demo.compileMs.toFixed(0).padStart(4)} ms to compile  ` +
      `${demo.megabytes.toFixed(2).padStart(6)} MB  x ${(demo.world.primitiveCount / demos[0].world.primitiveCount).toFixed(2)}`,
  );
const [first] = demos;
const largest = demos.reduce((a, b) => (b.world.primitiveCount > a.world.primitiveCount ? b : a));
compare('First demo, wide frame', [
  { ...first, name: 'without photons', photonsPerPass: 0 },
  { ...first, name: 'with photons', photonsPerPass: shareOfPhotons(first.heightPx ?? size) },
]);
compare(
  'Demos, with photons',
  [first, ...demos.filter((demo) => demo !== first)].map((demo) => ({
    ...demo,
    name: `${demo.name}${demo === largest ? ' (largest)' : ''}`,
    photonsPerPass: shareOfPhotons(demo.heightPx ?? size),
  })),
);
measureFilm();
