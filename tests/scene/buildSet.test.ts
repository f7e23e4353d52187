import { describe, expect, it } from 'vitest';
import { fixtureSchema, gripSchema } from '../../src/fixtures/records.ts';
import { buildSet } from '../../src/scene/buildSet.ts';
import { CAMERA_ID } from '../../src/scene/matteBox.ts';
import {
  defaultDrink,
  defaultGlass,
  defaultIce,
  defaultPiece,
  defaultTurntable,
} from '../../src/scene/pieceDefaults.ts';
import { TURNTABLE_ID } from '../../src/scene/turntable.ts';
import { crossingsAlong, trianglesOf } from './meshTools.ts';
import { sceneOf } from './sceneTools.ts';

const panel = fixtureSchema.parse({
  kind: 'panel',
  id: 'fixture:1',
  name: 'Panel',
  positionM: [0.6, 0.8, -0.4],
  aimM: [0, 0.07, 0],
  output: { unit: 'lumens', value: 4000 },
  widthM: 0.3,
  heightM: 0.6,
});
const flag = gripSchema.parse({
  kind: 'flag',
  id: 'grip:1',
  name: 'Flag',
  positionM: [-0.3, 0.2, 0],
  aimM: [0, 0.1, 0],
  widthM: 0.2,
  heightM: 0.3,
});

describe('building a set', () => {
  const glass = defaultGlass('highball', 'glass');
  if (glass.kind !== 'glass') throw new Error('glass only');
  const scene = sceneOf([defaultPiece('tabletop', 'table'), { ...glass, drink: defaultDrink(), ice: defaultIce() }], {
    fixtures: [panel, { ...panel, id: 'fixture:2', on: false, positionM: [-0.8, 0.9, 0.2] }],
    grip: [flag],
  });

  it('gives every fixture a film layer, on or off, in order', () => {
    expect(buildSet(scene).layerFixtureIds).toEqual(['fixture:1', 'fixture:2']);
  });

  it('is the same twice, and names every record it shows', () => {
    const set = buildSet(scene);
    expect(buildSet(structuredClone(scene))).toEqual(set);
    expect([...set.boundsByRecord.keys()]).toEqual(['table', 'glass', 'fixture:1', 'fixture:2', 'grip:1']);
    expect(set.diagnostics).toEqual([]);
  });

  it('names only volumes that exist', () => {
    const set = buildSet(scene);
    const ids = new Set(set.volumes.map((v) => v.id));
    for (const s of set.surfaces) {
      for (const id of [s.frontVolume, s.backVolume]) if (id !== undefined) expect(ids.has(id)).toBe(true);
    }
    expect(ids.size).toBe(set.volumes.length);
  });

  it('builds the rest when one piece cannot be made', () => {
    const broken = { ...glass, id: 'broken', profile: { ...glass.profile, wallM: 0.019, rimDiameterM: 0.02 } };
    const set = buildSet({ ...scene, pieces: [...scene.pieces, broken as typeof glass] });
    expect(set.boundsByRecord.has('broken')).toBe(false);
    expect(set.boundsByRecord.has('glass')).toBe(true);
    expect(set.diagnostics.find((d) => d.recordId === 'broken')?.severity).toBe('error');
  });
});

describe('the matte box', () => {
  const camera = {
    ...sceneOf([]).camera,
    positionM: [0, 0.2, 1] as [number, number, number],
    aimM: [0, 0.2, 0] as [number, number, number],
    matteBox: { innerWidthM: 0.12, innerHeightM: 0.1, depthM: 0.08, topFlagM: 0.05, sideFlagsM: 0 },
  };
  const set = buildSet(sceneOf([], { camera }));
  const roles = set.surfaces.map((s) => s.role);

  it('is four black sides and a top flag, in front of the lens only, fronts toward the axis', () => {
    expect(roles).toEqual(['top', 'bottom', 'left', 'right', 'top flag'].map((name) => `matte box ${name}`));
    expect(set.surfaces.every((s) => s.recordId === CAMERA_ID && s.finish.type === 'black')).toBe(true);
    for (const t of trianglesOf(set.surfaces)) {
      const outX = (t.a[0] + t.b[0] + t.c[0]) / 3;
      const outY = (t.a[1] + t.b[1] + t.c[1]) / 3 - 0.2;
      expect(t.normal[0] * outX + t.normal[1] * outY).toBeLessThan(0);
      expect(Math.max(t.a[2], t.b[2], t.c[2])).toBeLessThan(1);
    }
    const bounds = set.boundsByRecord.get(CAMERA_ID);
    expect(bounds?.minM[2]).toBeCloseTo(1 - 0.08 - 0.05, 12);
    expect(bounds?.maxM[1]).toBeCloseTo(0.2 + 0.05, 12);
  });

  it('has its left on the left of the picture: at -x for a camera that looks along -z', () => {
    const left = buildSet(sceneOf([], { camera })).surfaces.find((s) => s.role === 'matte box left');
    if (!left) throw new Error('no left side');
    expect(trianglesOf([left])[0].a[0]).toBeCloseTo(-0.06, 7);
  });

  it('lets the corner ray of an 85 mm lens through, and cuts one that is wider than the mouth', () => {
    const triangles = trianglesOf(set.surfaces);
    const toward = (x: number, y: number) => {
      const l = Math.hypot(x, y, 1);
      return crossingsAlong(triangles, [0, 0.2, 1], [x / l, y / l, -1 / l]).length;
    };
    // 36 x 24 mm behind 85 mm: 18/85 and 12/85. The box stops rays over 60/80 sideways, 50/130 upward.
    expect(toward(18 / 85, 12 / 85)).toBe(0);
    expect(toward(0.74, 0)).toBe(0);
    expect(toward(0.76, 0)).toBe(1);
    expect(toward(0, 0.38)).toBe(0);
    expect(toward(0, 0.39)).toBe(1);
    expect(toward(0, -0.6)).toBe(0);
  });
});

describe('the turntable', () => {
  const glass = { ...defaultGlass('tumbler', 'glass'), positionM: [0.05, 0.02, 0] as [number, number, number] };
  const turntable = { ...defaultTurntable(), carries: ['glass'] };
  const middleOf = (angleDeg: number, runOutM: number) => {
    const set = buildSet(sceneOf([glass], { turntable: { ...turntable, runOutM }, turntableAngleDeg: angleDeg }));
    const bounds = set.boundsByRecord.get('glass');
    if (!bounds) throw new Error('no bounds');
    return [0, 2].map((k) => (bounds.minM[k] + bounds.maxM[k]) / 2);
  };

  it('is a closed black disc with its top at centreM', () => {
    const set = buildSet(sceneOf([], { turntable }));
    const own = set.surfaces.filter((s) => s.recordId === TURNTABLE_ID);
    expect(own.at(-1)?.role).toBe('top');
    expect(set.boundsByRecord.get(TURNTABLE_ID)?.maxM[1]).toBeCloseTo(0.02, 12);
    expect(set.boundsByRecord.get(TURNTABLE_ID)?.maxM[0]).toBeCloseTo(0.125, 12);
  });

  it('carries a piece 50 mm off the axis round: to -z at 90 degrees, to -x at 180', () => {
    expect(middleOf(0, 0)[0]).toBeCloseTo(0.05, 12);
    expect(middleOf(90, 0)[0]).toBeCloseTo(0, 12);
    expect(middleOf(90, 0)[1]).toBeCloseTo(-0.05, 12);
    expect(middleOf(180, 0)[0]).toBeCloseTo(-0.05, 12);
  });

  it('adds 2 mm of run-out along +x at rest, which turns with it', () => {
    expect(middleOf(0, 0.002)[0]).toBeCloseTo(0.052, 12);
    expect(middleOf(180, 0.002)[0]).toBeCloseTo(-0.052, 12);
    expect(middleOf(90, 0.002)[1]).toBeCloseTo(-0.052, 12);
  });

  it('leaves alone what it does not carry', () => {
    const set = buildSet(sceneOf([glass], { turntable: { ...turntable, carries: [] }, turntableAngleDeg: 90 }));
    const bounds = set.boundsByRecord.get('glass');
    expect(((bounds?.minM[0] ?? 0) + (bounds?.maxM[0] ?? 0)) / 2).toBeCloseTo(0.05, 12);
  });
});
