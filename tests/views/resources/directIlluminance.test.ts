import { expect, test } from 'vitest';
import type { Vec3 } from '../../../src/core/vec3.ts';
import { photometryFromFixture } from '../../../src/fixtures/photometry.ts';
import { type Fixture, fixtureSchema } from '../../../src/fixtures/records.ts';
import type { OpticalSurface } from '../../../src/materials/surface.ts';
import { bouncePatches, patchIlluminance } from '../../../src/views/resources/light/bouncePatches.ts';
import { directIlluminance, type ShadedLight } from '../../../src/views/resources/light/directIlluminance.ts';
import type { Occluder } from '../../../src/views/resources/light/occluder.ts';
import { sceneLights } from '../../../src/views/resources/light/sceneLights.ts';

const CELLS = 4;
const UP: Vec3 = [0, 1, 0];

const lightOf = (fixture: Fixture, occluders: readonly Occluder[] = []): ShadedLight[] =>
  sceneLights([fixture], new Float32Array([1, 1, 1])).map((light) => ({ light, occluders }));

const panelOver = (heightM: number, widthM: number, depthM: number): Fixture =>
  fixtureSchema.parse({
    kind: 'panel',
    id: 'fixture:panel',
    name: 'Panel',
    positionM: [0, heightM, 0],
    aimM: [0, 0, 0],
    // 2000 cd/m2 over the whole face, Lambertian: flux = pi L A.
    output: { unit: 'lumens', value: Math.PI * 2000 * widthM * depthM },
    widthM,
    heightM: depthM,
  });

// J. R. Howell, A Catalog of Radiation Heat Transfer Configuration Factors, element to parallel rectangle:
// four corners of 0.6 x 0.3 at 1 m give F = 0.1779 and E = pi L F = 1117.7055 lx.
test('a 1.2 x 0.6 m panel of 2000 cd/m2 at 1 m gives 1117.7 lx below its middle within 2 %', () => {
  const [e] = directIlluminance(lightOf(panelOver(1, 1.2, 0.6)), [0, 0, 0], UP, null, CELLS);
  expect(Math.abs(e / 1117.7055 - 1)).toBeLessThan(0.02);
});

// Same source: element at the corner, four times 0.3 x 0.15 at 0.8 m: F = 0.0802772, L 5000: 1260.9937 lx.
test('a 0.6 x 0.3 m panel of 5000 cd/m2 at 0.8 m gives 1260.99 lx within 1 %', () => {
  const fixture = panelOver(0.8, 0.6, 0.3);
  const scaled = { ...fixture, output: { unit: 'lumens' as const, value: Math.PI * 5000 * 0.18 } };
  const [e] = directIlluminance(lightOf(scaled), [0, 0, 0], UP, null, CELLS);
  expect(Math.abs(e / 1260.9937 - 1)).toBeLessThan(0.01);
});

// Inverse square with cosine, CIE S 017: E = I cos / d^2.
test('a bulb of 1000 cd at 2 m and 60 degrees gives 125 lx within 0.5 %', () => {
  const bulb = fixtureSchema.parse({
    kind: 'bulb',
    id: 'fixture:bulb',
    name: 'Bulb',
    positionM: [2 * Math.sin(Math.PI / 3), 2 * Math.cos(Math.PI / 3), 0],
    aimM: [0, 0, 0],
    output: { unit: 'peakCandela', value: 1000 },
  });
  const [e] = directIlluminance(lightOf(bulb), [0, 0, 0], UP, null, CELLS);
  expect(Math.abs(e / 125 - 1)).toBeLessThan(0.005);
});

test('every kind of fixture gives on its axis at 1 m what its photometry says, within 2.5 %', () => {
  const common = { id: 'fixture:a', name: 'A', positionM: [0, 1, 0], aimM: [0, 0, 0] };
  const output = { unit: 'luxAtDistance', value: 800, distanceM: 1 };
  const fixtures = [
    { kind: 'panel', ...common, output, widthM: 0.5, heightM: 0.4, beamAngleDeg: 60 },
    { kind: 'spot', ...common, output, beamAngleDeg: 20 },
    { kind: 'bulb', ...common, output },
    { kind: 'tube', ...common, output, lengthM: 0.6 },
    { kind: 'softbox', ...common, output, widthM: 0.6, heightM: 0.6, edgeFalloff: 0.4 },
  ].map((record) => fixtureSchema.parse(record));
  for (const fixture of fixtures) {
    const [e] = directIlluminance(lightOf(fixture), [0, 0, 0], UP, null, CELLS);
    expect(photometryFromFixture(fixture).luxAtDistance(1)).toBeCloseTo(800, 3);
    // 4 x 4 cells see the darkening of the softbox's edge 1.9 % too slight: (1 - 0.4 x 0.3125)^2 for (1 - 0.4 / 3)^2.
    expect(Math.abs(e / 800 - 1), fixture.kind).toBeLessThan(0.025);
  }
});

const sheetAt = (heightM: number, sizeM: number, transmittance = 0): Occluder => ({
  kind: 'sheet',
  recordId: 'grip:flag',
  transmittance,
  originM: [-sizeM / 2, heightM, -sizeM / 2],
  edgeUM: [sizeM, 0, 0],
  edgeVM: [0, 0, sizeM],
});

test('a flag wide enough takes all of a panel, a cloth of 0.4 lets 0.4 by, an edge on the axis takes half', () => {
  const panel = panelOver(1, 0.4, 0.4);
  const lit = (occluders: readonly Occluder[]): number =>
    directIlluminance(lightOf(panel, occluders), [0, 0, 0], UP, null, CELLS)[0];
  const open = lit([]);
  expect(lit([sheetAt(0.5, 1)])).toBe(0);
  expect(lit([sheetAt(0.5, 1, 0.4)]) / open).toBeCloseTo(0.4, 9);
  const half: Occluder = {
    ...sheetAt(0.5, 1),
    kind: 'sheet',
    originM: [0, 0.5, -0.5],
    edgeUM: [1, 0, 0],
    edgeVM: [0, 0, 1],
  };
  expect(lit([half]) / open).toBeCloseTo(0.5, 6);
});

test('a thing does not shade itself', () => {
  const e = directIlluminance(lightOf(panelOver(1, 0.4, 0.4), [sheetAt(0.5, 1)]), [0, 0, 0], UP, 'grip:flag', CELLS);
  expect(e[0]).toBeGreaterThan(0);
});

// Penumbra of a straight edge, p = s b / a (similar triangles): source 0.4 m, edge 0.8 m from it, floor 0.2 m below
// the edge: 0.1 m wide, so the light is whole 50 mm to one side of the edge line and gone 50 mm to the other.
test('the penumbra of a flag edge is 0.1 m wide for a 0.4 m source at 0.8 m over a floor 0.2 m below', () => {
  const panel = panelOver(1, 0.4, 0.4);
  const edge: Occluder = {
    kind: 'sheet',
    recordId: 'f',
    transmittance: 0,
    originM: [0, 0.2, -2],
    edgeUM: [2, 0, 0],
    edgeVM: [0, 0, 4],
  };
  const share = (xM: number): number => {
    const at: Vec3 = [xM, 0, 0];
    const open = directIlluminance(lightOf(panel), at, UP, null, CELLS)[0];
    return directIlluminance(lightOf(panel, [edge]), at, UP, null, CELLS)[0] / open;
  };
  // The edge line seen from the light's middle meets the floor at x = 0.
  expect(share(-0.056)).toBeGreaterThan(0.97);
  expect(share(0.056)).toBeLessThan(0.03);
  expect(share(0)).toBeCloseTo(0.5, 2);
  expect(share(-0.025)).toBeGreaterThan(0.65);
  expect(share(-0.025)).toBeLessThan(0.85);
});

test('a box and an upright cylinder in the way take the light, beside them it is whole', () => {
  const bulb = fixtureSchema.parse({
    kind: 'bulb',
    id: 'fixture:bulb',
    name: 'Bulb',
    positionM: [1, 1, 0],
    aimM: [0, 0, 0],
    output: { unit: 'peakCandela', value: 1000 },
    diameterM: 0.02,
  });
  const box: Occluder = {
    kind: 'box',
    recordId: 'b',
    transmittance: 0,
    centreM: [0.2, 0.1, 0],
    halfM: [0.05, 0.15, 0.05],
    across: [1, 0, 0],
  };
  const post: Occluder = {
    kind: 'cylinder',
    recordId: 'c',
    transmittance: 0,
    footM: [0.2, 0, 0],
    radiusM: 0.05,
    heightM: 0.25,
  };
  for (const occluder of [box, post]) {
    const at = (p: Vec3): number => directIlluminance(lightOf(bulb, [occluder]), p, UP, null, CELLS)[0];
    expect(at([0, 0, 0]), occluder.kind).toBe(0);
    expect(at([0, 0, 0.2]), occluder.kind).toBeGreaterThan(200);
    // The light stands at 45 degrees; 0.5 m behind a thing 0.25 m high it clears the top.
    expect(at([-0.3, 0, 0]), occluder.kind).toBeGreaterThan(150);
  }
});

// Element to a coaxial parallel disc of radius r at d: F = r^2 / (r^2 + d^2), E = pi L F (as above).
test('a patch of 0.1 m2 gives what a disc of its area gives on its axis, near and far', () => {
  for (const d of [0.05, 0.3, 2]) {
    const patch = {
      recordId: 'p',
      centreM: [0, d, 0],
      normal: [0, -1, 0],
      areaM2: 0.1,
      rgbNits: [100, 100, 100],
    } as const;
    const r2 = 0.1 / Math.PI;
    expect(patchIlluminance([patch], [0, 0, 0], UP)[0]).toBeCloseTo((Math.PI * 100 * r2) / (r2 + d * d), 6);
  }
});

test('a sheet that lies on a table keeps the table under it from brightening the set', () => {
  const lights = lightOf(panelOver(1, 0.4, 0.4));
  const surface: OpticalSurface = {
    recordId: 'table',
    role: 'top',
    shape: { type: 'quad', originM: [-0.2, 0, 0.2], edgeUM: [0.4, 0, 0], edgeVM: [0, 0, -0.4] },
    worldFromLocal: { rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1], translationM: [0, 0, 0] },
    finish: { type: 'matte', reflectanceRgb: [0.8, 0.8, 0.8] },
  };
  const set = { surfaces: [surface], volumes: [], layerFixtureIds: [], boundsByRecord: new Map(), diagnostics: [] };
  const cover: Occluder = {
    kind: 'box',
    recordId: 'sheet',
    transmittance: 0,
    centreM: [0, 0.003, 0],
    halfM: [0.4, 0.002, 0.4],
    across: [1, 0, 0],
  };
  expect(bouncePatches(set, lights, [], 28, [0, 0, 0]).length).toBeGreaterThan(0);
  expect(bouncePatches(set, lights, [cover], 28, [0, 0, 0])).toEqual([]);
});
