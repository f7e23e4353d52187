/**
 * The reflection check against long traced frames: `npx tsx bench/reflections.bench.ts [--seeds 50] [--only NAME] [--list] [--keep FOLDER]`.
 *
 * Every frame of every demo setup and `--seeds` random ones is traced (whole frame and, apart, every mirror-like image of every
 * lamp, card and cloth), measured by the documented limits, and compared with what the check tells of it. `--list` prints
 * every reflection, else only those missed or not there; `--keep` keeps traced frames for another run after a change of the check. `--deep` traces
 * paths that are fainter or longer than the check follows too.
 */
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { deserialize, serialize } from 'node:v8';
import { type CheckInput, createCheckInput } from '../src/analysis/index.ts';
import { parseSetup } from '../src/document/codec.ts';
import { hashText } from '../src/document/hash.ts';
import { resolveFrame } from '../src/document/resolveFrame.ts';
import type { FrameScene } from '../src/scene/setModel.ts';
import { checkAgainstTrace, longFrameOptions } from './reflections/checkAgainstTrace.ts';
import type { Comparison, Verdict } from './reflections/compareFrame.ts';
import { type LongFrame, traceImages, traceTotalNits } from './reflections/longFrame.ts';
import { randomFrame } from './reflections/randomSetup.ts';

const { values } = parseArgs({
  options: {
    seeds: { type: 'string', default: '50' },
    from: { type: 'string', default: '1' },
    only: { type: 'string' },
    list: { type: 'boolean', default: false },
    samples: { type: 'string', default: '32' },
    keep: { type: 'string' },
    deep: { type: 'boolean', default: false },
  },
});
const samples = Number(values.samples);

interface NamedScene {
  readonly name: string;
  readonly scene: () => FrameScene;
}

function demoScenes(): NamedScene[] {
  const folder = new URL('../assets/setups/', import.meta.url);
  return readdirSync(folder)
    .filter((file) => file.endsWith('.json'))
    .flatMap((file) => {
      const opened = parseSetup(readFileSync(new URL(file, folder), 'utf8'));
      if (!opened.ok) throw new Error(`${file}: ${opened.error.message}`);
      const { setup } = opened.value;
      return setup.frames.map((frame) => ({
        name: `${file.replace('.json', '')} / ${frame.name}`,
        scene: () => {
          const scene = resolveFrame(setup, frame.id);
          if (!scene.ok) throw new Error(`${file}: ${scene.error[0].message}`);
          return scene.value;
        },
      }));
    });
}

const scenes: NamedScene[] = [
  ...demoScenes(),
  ...Array.from({ length: Number(values.seeds) }, (_, i) => {
    const seed = Number(values.from) + i;
    return { name: `random ${seed}`, scene: () => randomFrame(seed).scene };
  }),
].filter(
  ({ name }) =>
    values.only === undefined ||
    name === values.only ||
    name.includes(`${values.only} /`) ||
    (values.only === 'random' && name.startsWith('random')),
);

const VERDICTS: readonly Verdict[] = ['found', 'missed', 'false', 'borderline'];
const totals = { found: 0, missed: 0, false: 0, borderline: 0 };
const differences: number[] = [];
const started = process.cpuUsage();
console.log(`${'frame'.padEnd(52)} ${VERDICTS.map((v) => v.padStart(10)).join(' ')}`);
for (const { name, scene } of scenes) {
  const frameScene = scene();
  const input = createCheckInput(frameScene);
  const comparisons = checkAgainstTrace(input, tracedFrame(name, frameScene, input));
  const counts = VERDICTS.map((verdict) => comparisons.filter((c) => c.verdict === verdict).length);
  VERDICTS.forEach((verdict, i) => {
    totals[verdict] += counts[i];
  });
  console.log(`${name.padEnd(52)} ${counts.map((count) => String(count).padStart(10)).join(' ')}`);
  for (const c of comparisons) {
    if (c.verdict === 'found' && c.finding && c.image) differences.push(c.finding.value - c.image.stops);
    if (values.list || c.verdict === 'missed' || c.verdict === 'false') console.log(describe(c));
  }
}
const used = process.cpuUsage(started);
console.log(`${'all'.padEnd(52)} ${VERDICTS.map((verdict) => String(totals[verdict]).padStart(10)).join(' ')}`);
const sorted = differences.map(Math.abs).sort((a, b) => a - b);
const at = (share: number): string => (sorted[Math.floor(share * (sorted.length - 1))] ?? 0).toFixed(2);
console.log(
  `figure of the check against the traced one, stops: median ${at(0.5)}, 90 % within ${at(0.9)}, all within ${at(1)}`,
);
console.log(`${((used.user + used.system) / 1e6).toFixed(0)} s of processor time`);

/** Traced, or read from the folder given with `--keep` where the same set was traced before. */
function tracedFrame(name: string, scene: FrameScene, input: CheckInput): LongFrame {
  const options = longFrameOptions(input, { seed: 1, frameSamples: samples, imageSamples: samples, deep: values.deep });
  const keptAs = <T>(part: string, trace: () => T): T => {
    if (values.keep === undefined) return trace();
    mkdirSync(values.keep, { recursive: true });
    const key = hashText(JSON.stringify([scene, samples]));
    const file = join(values.keep, `${name.replace(/[^a-z0-9]+/gi, '-')}-${key}-${part}.v8`);
    if (existsSync(file)) return deserialize(readFileSync(file));
    const traced = trace();
    writeFileSync(file, serialize(traced));
    return traced;
  };
  return {
    ...keptAs(values.deep ? 'deep' : 'shown', () => traceImages(options)),
    totalNits: keptAs('total', () => traceTotalNits(options)),
  };
}

function describe({ verdict, id, finding, image, isPlain }: Comparison): string {
  const told = finding
    ? `${finding.value.toFixed(2)} stops at (${finding.where.frame?.u.toFixed(2)}, ${finding.where.frame?.v.toFixed(2)})`
    : 'nothing';
  const traced = image
    ? `${image.stops.toFixed(2)} stops, ${image.pixelsAt(-0.1).toFixed(1)}/${image.pixelsAt(0).toFixed(1)}/${image.pixelsAt(0.1).toFixed(1)} of ${image.seenPixels} px`
    : 'nothing';
  return `    ${verdict.padEnd(10)} ${id.replace('reflections:', '')}${isPlain ? ' (plain)' : ''}: check ${told}; traced ${traced}`;
}
