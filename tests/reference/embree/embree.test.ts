import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { createRandom } from '../../../src/core/rng.ts';
import { addScaled, type Vec3 } from '../../../src/core/vec3.ts';
import { readPfm } from '../../../src/deliverables/image/index.ts';
import { compileWorld, createRayQuery, createTracerFor, traceTile } from '../../../src/transport/index.ts';
import { matte, setOf, surfaceOf } from '../../helpers/surfaces.ts';
import { traceRays } from '../../helpers/traceRays.ts';
import { embreeScene } from './embreeScene.ts';
import { BALL, BLOCK, CARDS, flaggedTable, flaggedTableView, LAMP, PUCK, SIZE_PX } from './scene.ts';

/*
 * The flagged table against Embree's path tracer; README.md says how its picture was made. Tolerance: 2 % plus three
 * standard errors of our own estimate, which is itself held under 2 %.
 */
const file = readPfm(readFileSync(new URL('flagged-table.pfm', import.meta.url)));
if (!file.ok) throw new Error(file.error.message);
const embree = file.value.rgb;
const world = compileWorld(flaggedTable(), { rawColour: true });

/** Pixels x0 x1 y0 y1 from the top left, end excluded. */
type Box = readonly [number, number, number, number];

/** Mean of a box of the picture after `samples` samples, and its standard error. */
function traceRows(top: number, bottom: number, samples: number) {
  const job = {
    world,
    view: flaggedTableView(),
    widthPx: SIZE_PX,
    heightPx: SIZE_PX,
    seed: 3,
    samplesPerPixel: samples,
    maxDepth: 64,
    layerGains: new Float32Array(3).fill(1),
  };
  const tile = traceTile(createTracerFor(job), 1, {
    x: 0,
    y: top,
    widthPx: SIZE_PX,
    heightPx: bottom - top,
    firstSample: 0,
    samples,
  });
  expect(tile.dropped).toBe(0);
  return ([x0, x1, y0, y1]: Box) => {
    let sum = 0;
    let variance = 0;
    for (let y = y0 - top; y < y1 - top; y++)
      for (let x = x0; x < x1; x++) {
        const mean = tile.luminanceSum[y * SIZE_PX + x] / samples;
        sum += mean;
        variance += Math.max(0, tile.luminanceSquareSum[y * SIZE_PX + x] / samples - mean * mean) / samples;
      }
    const count = (x1 - x0) * (y1 - y0);
    return { mean: sum / count, standardError: Math.sqrt(variance) / count };
  };
}

function embreeMean([x0, x1, y0, y1]: Box): number {
  let sum = 0;
  for (let y = y0; y < y1; y++) for (let x = x0; x < x1; x++) sum += embree[(y * SIZE_PX + x) * 3];
  return sum / ((x1 - x0) * (y1 - y0));
}

function expectAgreement(measure: ReturnType<typeof traceRows>, regions: readonly (readonly [string, Box])[]): void {
  for (const [name, box] of regions) {
    const { mean, standardError } = measure(box);
    const expected = embreeMean(box);
    expect(standardError, `${name}: standard error`).toBeLessThan(0.02 * expected);
    expect(Math.abs(mean - expected), `${name}: ${mean} against ${expected} +- ${standardError}`).toBeLessThan(
      0.02 * expected + 3 * standardError,
    );
  }
}

describe('the flagged table against the path tracer of Embree', () => {
  it('agrees where the lamp falls straight in: wall, table in front, the whole frame', () => {
    const measure = traceRows(0, SIZE_PX, 40);
    expectAgreement(measure, [
      ['wall, left', [2, 15, 6, 50]],
      ['wall, middle', [20, 60, 4, 30]],
      ['wall, right', [66, 126, 4, 44]],
      ['table in front of the shadow', [4, 124, 109, 127]],
      ['whole frame', [0, SIZE_PX, 0, SIZE_PX]],
    ]);
  });

  it('agrees in the shadow of the flag, where all light is bounced: through ball, block and puck, in the mirror', () => {
    const measure = traceRows(32, 106, 300);
    expectAgreement(measure, [
      ['mirror', [18, 48, 44, 58]],
      ['ball, absorbing half', [16, 35, 57, 77]],
      ['block', [60, 79, 47, 74]],
      ['puck', [92, 110, 67, 85]],
      ['table between the pieces', [38, 58, 68, 90]],
      ['table at the left', [2, 60, 86, 100]],
      ['table at the right', [84, 126, 88, 102]],
      ['foot of the wall', [84, 126, 50, 58]],
    ]);
  });

  it('is a scene that Embree can do: no straight line leads from the lamp to anything mirror-like', () => {
    // Its path tracer has no caustics: a lamp is only ever met by connection from a matte surface.
    const query = createRayQuery(world);
    const random = createRandom(5);
    const mirror = CARDS.find(({ finish }) => finish === 'mirror');
    if (!mirror) throw new Error('no mirror');
    const places: (() => Vec3)[] = [
      () => addScaled(addScaled(mirror.originM, mirror.edgeUM, random()), mirror.edgeVM, random()),
      ...[
        { at: BALL.centreM, r: BALL.radiusM, h: BALL.radiusM },
        { at: BLOCK.footM, r: Math.hypot(BLOCK.sizeM[0], BLOCK.sizeM[2]) / 2, h: BLOCK.sizeM[1] },
        { at: PUCK.centreM, r: PUCK.radiusM, h: PUCK.y1M },
      ].map(({ at: [x, y, z], r, h }) => (): Vec3 => {
        const turn = 2 * Math.PI * random();
        // On the wall of an upright drum round the piece.
        return [x + r * Math.cos(turn), y + (2 * random() - 1) * h, z + r * Math.sin(turn)];
      }),
    ];
    const lampSide = (): Vec3 =>
      addScaled(LAMP.positionM, [2 * random() - 1, 2 * random() - 1, 2 * random() - 1], 1.5 * LAMP.radiusM);
    for (const place of places) for (let i = 0; i < 500; i++) expect(query.blocked(lampSide(), place())).toBe(true);
    // And the wall, for contrast, is lit.
    expect(query.blocked([-0.15, 0.69, 0], [0.3, 0.5, -0.49])).toBe(false);
  });

  it('was rendered from the very scene file that stands beside it', () => {
    expect(readFileSync(new URL('flagged-table.xml', import.meta.url), 'utf8')).toBe(embreeScene(0.15));
  });

  it("has Embree's units: a card of .5 under 4, 2 and 1 cd, .3 m aside and 1 m up, reads .559, .280 and .140 cd/m2", () => {
    // L = rho I cos / (pi d^2). Embree wrote 142, 71 and 35, which is floor(255.01 L); see README.md.
    const d2 = 1 + 0.3 * 0.3;
    const codes = [4, 2, 1].map((cd) => Math.floor((255.01 * 0.5 * cd) / (Math.PI * d2 * Math.sqrt(d2))));
    expect(codes).toEqual([142, 71, 35]);
    const lamp = flaggedTable().surfaces.find(({ recordId }) => recordId === 'lamp');
    if (!lamp) throw new Error('no lamp');
    const card = surfaceOf(
      'card',
      { type: 'quad', originM: [-0.5, 0, 0.5], edgeUM: [1, 0, 0], edgeVM: [0, 0, -1] },
      matte(0.5),
    );
    const placed = { ...lamp, worldFromLocal: { ...lamp.worldFromLocal, translationM: [0.3, 1, 0] as const } };
    const { rgb, error } = traceRays(setOf([card, placed]), [0, 0.5, 0.5], [0, -1, -1], 40_000);
    expect(Math.abs(rgb[0] - 0.55942)).toBeLessThan(4 * error);
    expect(error).toBeLessThan(0.005);
  });
});
