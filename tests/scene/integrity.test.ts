import { describe, expect, it } from 'vitest';
import { fixtureSchema, gripSchema } from '../../src/fixtures/records.ts';
import { defaultDressing } from '../../src/scene/dressingDefaults.ts';
import { type DressingKind, dressingSchema } from '../../src/scene/dressingRecords.ts';
import { checkSetIntegrity } from '../../src/scene/integrity.ts';
import { defaultGlass, defaultPiece, defaultTurntable } from '../../src/scene/pieceDefaults.ts';
import type { Piece } from '../../src/scene/records.ts';
import { sceneOf } from './sceneTools.ts';

const table = defaultPiece('tabletop', 'table');
const sheet = defaultPiece('sheet', 'sheet');
const at = (piece: Piece, x: number, y: number, z: number): Piece => ({ ...piece, positionM: [x, y, z] });
const glass = (x: number, y: number, z: number, id = 'glass') => at(defaultGlass('highball', id), x, y, z);
const codes = (...args: Parameters<typeof sceneOf>) => checkSetIntegrity(sceneOf(...args)).map((d) => d.code);

describe('a set that could stand in a room', () => {
  it('says nothing of a glass on acrylic on a table, before a wall, beside another glass', () => {
    const wall = at(defaultPiece('wall', 'wall'), 0, 0, -0.4);
    expect(codes([table, sheet, wall, glass(0, 0.005, 0), glass(0.065, 0.005, 0, 'second')])).toEqual([]);
  });

  it('says nothing of a glass on a sweep, a plinth or a turning table', () => {
    expect(codes([defaultPiece('sweep', 'paper'), glass(0, 0, 0)])).toEqual([]);
    expect(codes([table, defaultPiece('plinthBox', 'plinth'), glass(0, 0.06, 0)])).toEqual([]);
    expect(
      codes([table, glass(0.02, 0.02, 0)], {
        turntable: { ...defaultTurntable(), carries: ['glass'] },
        turntableAngleDeg: 77,
      }),
    ).toEqual([]);
  });
});

describe('set dressing', () => {
  const dressing = (kind: DressingKind, more: object = {}, id: string = kind): Piece =>
    dressingSchema.parse({ ...defaultDressing(kind, id), positionM: [0, 0, 0], ...more });

  it('carries a glass: on a coaster, a tray, a book, a napkin, a light table, a step', () => {
    for (const [kind, heightM] of [
      ['coaster', 0.004],
      ['tray', 0.005 + 0.0001],
      ['book', 0.028],
      ['lightTable', 0.12],
    ] as const) {
      expect(codes([table, dressing(kind), glass(0, heightM, 0)]), kind).toEqual([]);
    }
    // Two steps of 50 mm; the upper tread is the back one.
    expect(codes([table, dressing('step'), glass(0, 0.1, -0.05)])).toEqual([]);
    expect(codes([table, dressing('step'), glass(0, 0.05, 0.05)])).toEqual([]);
  });

  it('leaves room in a doorway, under a light table and beside a round coaster', () => {
    const ball = dressing('sphere', { diameterM: 0.06 });
    expect(codes([table, dressing('arch'), ball])).toEqual([]);
    expect(codes([table, dressing('lightTable'), ball])).toEqual([]);
    const beside = dressing('coaster', { positionM: [0.073, 0, 0.073] }, 'other');
    expect(codes([table, dressing('coaster'), beside])).toEqual([]);
  });

  it('takes up room all the same: a ball in a step, a plinth in an arch, a glass through a screen', () => {
    expect(codes([table, dressing('step'), dressing('sphere')])).toEqual(['pieces-overlap']);
    expect(codes([table, dressing('arch'), at(defaultPiece('plinthBox', 'plinth'), 0.08, 0, 0)])).toEqual([
      'pieces-overlap',
    ]);
    expect(codes([table, dressing('reedScreen'), glass(0, 0, 0)])).toEqual(['pieces-overlap']);
  });
});

describe('a set that could not', () => {
  it('finds a glass let 3 mm into the table, and one 3 mm over it', () => {
    expect(codes([table, glass(0, -0.003, 0)])).toContain('pieces-overlap');
    expect(codes([table, glass(0, 0.003, 0)])).toEqual(['stands-on-nothing']);
  });

  it('finds two highballs of 64 mm that stand 60 mm apart', () => {
    expect(codes([table, glass(0, 0, 0), glass(0.06, 0, 0, 'second')])).toEqual(['pieces-overlap']);
  });

  it('finds a lens inside a wall and inside a panel', () => {
    const { camera } = sceneOf([]);
    const wall = at(defaultPiece('wall', 'wall'), 0, 0, 1);
    const inWall = checkSetIntegrity(sceneOf([wall], { camera: { ...camera, positionM: [0, 0.5, 0.99] } }));
    expect(inWall.map((d) => [d.code, d.severity, d.field])).toEqual([
      ['lens-inside-piece', 'error', 'camera.positionM'],
    ]);
    const panel = fixtureSchema.parse({
      kind: 'panel',
      id: 'panel',
      name: 'Panel',
      positionM: [0, 0.5, 1],
      aimM: [0, 0.5, 2],
      output: { unit: 'lumens', value: 100 },
      widthM: 0.3,
      heightM: 0.3,
    });
    expect(codes([], { camera: { ...camera, positionM: [0.1, 0.5, 0.98] }, fixtures: [panel] })).toEqual([
      'lens-inside-fixture',
    ]);
    expect(codes([], { camera: { ...camera, positionM: [0.1, 0.5, 1.02] }, fixtures: [panel] })).toEqual([]);
  });

  it('finds a bulb inside a plinth and a flag through a glass', () => {
    const bulb = fixtureSchema.parse({
      kind: 'bulb',
      id: 'bulb',
      name: 'Bulb',
      positionM: [0, 0.03, 0],
      aimM: [0, 1, 0],
      output: { unit: 'lumens', value: 400 },
    });
    expect(codes([table, defaultPiece('plinthBox', 'plinth')], { fixtures: [bulb] })).toEqual(['fixture-inside-piece']);
    const flag = gripSchema.parse({
      kind: 'flag',
      id: 'flag',
      name: 'Flag',
      positionM: [0, 0.1, 0.02],
      aimM: [0, 0.1, 1],
      widthM: 0.2,
      heightM: 0.1,
    });
    expect(codes([table, glass(0, 0, 0)], { grip: [flag] })).toEqual(['grip-inside-piece']);
  });
});
