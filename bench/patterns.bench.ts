/**
 * What one call of each pattern costs: `npx tsx bench/patterns.bench.ts`. Prints nanoseconds of processor time at random
 * points of a metre cube (nothing shared from call to call) and along a line (as neighbouring pixels ask), fastest of 5.
 */
import { createRandom } from '../src/core/rng.ts';
import { patternNumbers, patternSchema } from '../src/materials/pattern.ts';
import { patternMixAt } from '../src/materials/patterns/patternMixAt.ts';

const POINTS = 40000;
const random = createRandom(1);
const scattered = Float64Array.from({ length: 3 * POINTS }, random);
const along = Float64Array.from({ length: 3 * POINTS }, (_, i) => 0.3 * ((i % 3) + 1) + Math.floor(i / 3) * 1e-5);

let sink = 0;
function nanosecondsPerCall(kind: number, params: Float64Array, points: Float64Array): number {
  let fastest = Number.POSITIVE_INFINITY;
  for (let run = 0; run < 5; run++) {
    const start = process.cpuUsage();
    for (let i = 0; i < points.length; i += 3) {
      sink += patternMixAt(kind, params, 0, points[i], points[i + 1], points[i + 2]);
    }
    fastest = Math.min(fastest, (process.cpuUsage(start).user * 1000) / POINTS);
  }
  return fastest;
}

console.log(`node ${process.version} ${process.arch}, one thread`);
for (const option of patternSchema.options) {
  const type = option.shape.type.value;
  const { kind, params } = patternNumbers(patternSchema.parse({ type, secondRgb: [0, 0, 0] }));
  const numbers = Float64Array.from(params);
  const apart = nanosecondsPerCall(kind, numbers, scattered);
  const near = nanosecondsPerCall(kind, numbers, along);
  console.log(
    `${type.padEnd(12)} ${apart.toFixed(0).padStart(5)} ns scattered ${near.toFixed(0).padStart(5)} ns along a line`,
  );
}
if (!Number.isFinite(sink)) throw new Error('a pattern gave no number');
