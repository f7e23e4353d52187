import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/core/rng.ts';
import type { Finish } from '../../src/materials/finish.ts';
import { buildSet } from '../../src/scene/buildSet.ts';
import { BOARD_LIFT_M, GLASS_LIFT_M, PAPER_LIFT_M } from '../../src/scene/clearances.ts';
import { defaultGlass, defaultPiece, GLASS_SHAPES, PIECE_KINDS } from '../../src/scene/pieceDefaults.ts';
import { type Piece, pieceSchema } from '../../src/scene/records.ts';
import { traceRays } from '../helpers/traceRays.ts';
import { crossingsAlong, enclosedVolumeM3, mediaAlong, openEdgeCount, randomChord, trianglesOf } from './meshTools.ts';
import { sceneOf } from './sceneTools.ts';

const CLEAR: Finish = { type: 'clear', roughness: 0 };
const COARSE = { turnStepRad: Math.PI / 16, arcStepRad: Math.PI / 16 };
const boundsOf = (piece: Piece) => {
  const bounds = buildSet(sceneOf([piece])).boundsByRecord.get(piece.id);
  if (!bounds) throw new Error('no bounds');
  return bounds;
};

describe('records to start from', () => {
  it.each(PIECE_KINDS)('%s is valid, complete and builds without a word', (kind) => {
    const piece = defaultPiece(kind, 'a');
    expect(pieceSchema.parse(piece)).toEqual(piece);
    const set = buildSet(sceneOf([{ ...defaultPiece('tabletop', 'table') }, piece].slice(kind === 'tabletop' ? 1 : 0)));
    expect(set.diagnostics).toEqual([]);
    expect(set.surfaces.some((s) => s.recordId === 'a')).toBe(true);
  });

  it.each(GLASS_SHAPES)('%s is valid and makes a glass', (shape) => {
    const piece = defaultGlass(shape, 'a');
    expect(pieceSchema.parse(piece)).toEqual(piece);
    expect(buildSet(sceneOf([piece])).diagnostics.filter((d) => d.severity === 'error')).toEqual([]);
  });
});

describe('closed pieces', () => {
  const solids = ['tabletop', 'sheet', 'plinthBox', 'plinthCylinder', 'wall'] as const;

  it.each(solids)('%s is closed with normals outward', (kind) => {
    const set = buildSet(sceneOf([defaultPiece(kind, 'a')]));
    const triangles = trianglesOf(set.surfaces, COARSE);
    expect(openEdgeCount(triangles)).toBe(0);
    expect(enclosedVolumeM3(triangles)).toBeGreaterThan(0);
    const { minM, maxM } = boundsOf(defaultPiece(kind, 'a'));
    const radiusM = Math.hypot(maxM[0] - minM[0], maxM[1] - minM[1], maxM[2] - minM[2]);
    const random = createRandom(1);
    for (let i = 0; i < 60; i++) {
      const middle = [0, 1, 2].map((k) => (minM[k] + maxM[k]) / 2);
      const { origin, direction } = randomChord(random, [middle[0], middle[1], middle[2]], radiusM);
      crossingsAlong(triangles, origin, direction).forEach((c, k) => {
        expect(c.front).toBe(k % 2 === 0);
      });
    }
  });

  it.each(solids)('%s of a clear finish is a clear body of its index; of another finish only a surface', (kind) => {
    const piece = defaultPiece(kind, 'a');
    if (!('clearIndex' in piece)) throw new Error('solids only');
    expect(buildSet(sceneOf([piece])).volumes).toEqual([]);
    const set = buildSet(sceneOf([{ ...piece, finish: CLEAR, clearIndex: 1.53 }]));
    expect(set.volumes).toHaveLength(1);
    expect(set.volumes[0].medium.index).toBe(1.53);
    const { minM, maxM } = boundsOf(piece);
    const y = (minM[1] + maxM[1]) / 2;
    const z = (minM[2] + maxM[2]) / 2;
    const media = mediaAlong(set.surfaces, crossingsAlong(trianglesOf(set.surfaces), [-5, y, z + 0.001], [1, 0, 0]));
    expect(media).toEqual(['air', 'a:body', 'air']);
  });

  it.each(solids)(
    '%s of a clear finish is as deep in colour as its record says, and colourless where it says nothing',
    (kind) => {
      const piece = { ...defaultPiece(kind, 'a'), finish: CLEAR };
      const clearAbsorptionPerM: [number, number, number] = [240, 250, 255];
      expect(buildSet(sceneOf([piece])).volumes[0].medium.absorptionPerM).toEqual([0, 0, 0]);
      const tinted = buildSet(sceneOf([pieceSchema.parse({ ...piece, clearAbsorptionPerM })]));
      expect(tinted.volumes[0].medium.absorptionPerM).toEqual(clearAbsorptionPerM);
    },
  );

  it('a smoke sheet of 5 mm lets through exp(-k 5 mm) of what enters it: Beer-Lambert between two faces of 1.49', () => {
    const base = defaultPiece('sheet', 'a');
    if (base.kind !== 'sheet') throw new Error('a sheet');
    const clearAbsorptionPerM: [number, number, number] = [240, 250, 255];
    const sheet = { ...base, edgeRadiusM: 0, finish: CLEAR, clearIndex: 1.49, clearAbsorptionPerM };
    const { rgb } = traceRays(buildSet(sceneOf([sheet])), [0.01, 0.5, 0.02], [0, -1, 0], 4000, {
      surroundRgb: [1, 1, 1],
    });
    // The lift of its underside leaves 4.9 mm. Faces: R = 0.038725 (Born and Wolf, 1.5.2); sums of all bounces, plus what
    // the sheet mirrors of the same surround.
    const r = 0.038725;
    clearAbsorptionPerM.forEach((k, c) => {
      const t = Math.exp(-k * 0.0049);
      const through = ((1 - r) ** 2 * t) / (1 - (r * t) ** 2);
      const back = r + ((1 - r) ** 2 * t * t * r) / (1 - (r * t) ** 2);
      expect(Math.abs(rgb[c] - through - back)).toBeLessThan(0.004);
    });
  });

  it('keep their tops where the record says and lift their undersides by hair gaps, paper under board under glass', () => {
    const sheet = boundsOf(defaultPiece('sheet', 'a'));
    expect(sheet.minM[1]).toBeCloseTo(BOARD_LIFT_M, 12);
    expect(sheet.maxM[1]).toBeCloseTo(0.005, 12);
    const table = boundsOf(defaultPiece('tabletop', 'a'));
    expect(table.maxM[1]).toBe(0);
    expect(table.minM[1]).toBeCloseTo(-0.03, 12);
    const plinth = boundsOf(defaultPiece('plinthCylinder', 'a'));
    expect(plinth.maxM[1]).toBeCloseTo(0.05, 12);
    expect(plinth.maxM[0]).toBeCloseTo(0.07, 12);
    expect(PAPER_LIFT_M).toBeLessThan(BOARD_LIFT_M);
    expect(BOARD_LIFT_M).toBeLessThan(GLASS_LIFT_M);
  });

  it('turn with their heading: 90 degrees swaps the width and depth of a 140 x 300 mm plinth', () => {
    const piece = defaultPiece('plinthBox', 'a');
    if (piece.kind !== 'plinthBox') throw new Error('box only');
    const { minM, maxM } = boundsOf({ ...piece, depthM: 0.3, headingDeg: 90 });
    expect(maxM[0] - minM[0]).toBeCloseTo(0.3, 12);
    expect(maxM[2] - minM[2]).toBeCloseTo(0.14, 12);
  });

  it('are left out when the rounding of an edge is more than half their least size', () => {
    const piece = defaultPiece('sheet', 'a');
    if (piece.kind !== 'sheet') throw new Error('sheet only');
    const set = buildSet(sceneOf([{ ...piece, edgeRadiusM: 0.004 }]));
    expect(set.surfaces).toHaveLength(0);
    expect(set.diagnostics[0]).toMatchObject({ severity: 'error', field: 'edgeRadiusM', recordId: 'a' });
  });
});

describe('a paper sweep', () => {
  const piece = defaultPiece('sweep', 'a');
  if (piece.kind !== 'sweep') throw new Error('sweep only');
  const at: Piece = { ...piece, positionM: [0, 0, 0] };

  it('is a floor, a cove and a rise without a gap: only its outline is open', () => {
    const set = buildSet(sceneOf([at]));
    expect(set.surfaces.map((s) => s.role)).toEqual(['floor', 'cove', 'rise']);
    // Triangles along the joints match, so open edges are the outline alone: floor 3, rise 3, cove 2 x 8 steps.
    expect(openEdgeCount(trianglesOf(set.surfaces, { turnStepRad: Math.PI / 16 }))).toBe(3 + 3 + 16);
  });

  it('faces the subject: floor up, rise forward, cove between', () => {
    for (const t of trianglesOf(buildSet(sceneOf([at])).surfaces)) {
      expect(t.normal[1]).toBeGreaterThan(-1e-6);
      expect(t.normal[2]).toBeGreaterThan(-1e-6);
      expect(Math.abs(t.normal[0])).toBeLessThan(1e-6);
    }
  });

  it('follows the cove: a ray down 177 mm behind the floor meets it 73.2 mm up (radius 250)', () => {
    const set = buildSet(sceneOf([at]));
    // R (1 - cos 45 degrees) up at R sin 45 degrees back.
    const back = 0.25 * Math.SQRT1_2;
    const triangles = trianglesOf(set.surfaces, { turnStepRad: Math.PI / 512 });
    const [hit] = crossingsAlong(triangles, [0.1, 1, -0.9 - back], [0, -1, 0]);
    expect(1 - hit.tM).toBeCloseTo(PAPER_LIFT_M + 0.25 * (1 - Math.SQRT1_2), 5);
    expect(hit.front).toBe(true);
    const { minM, maxM } = boundsOf(at);
    expect(minM[2]).toBeCloseTo(-0.9 - 0.25, 12);
    expect(maxM[1]).toBeCloseTo(1.1, 12);
    expect(minM[1]).toBeCloseTo(PAPER_LIFT_M, 12);
  });

  it('ends on the cove when it is lower than the cove is round', () => {
    const set = buildSet(sceneOf([{ ...at, heightM: 0.1 }]));
    expect(set.surfaces.map((s) => s.role)).toEqual(['floor', 'cove']);
    expect(set.boundsByRecord.get('a')?.maxM[1]).toBeCloseTo(0.1, 12);
  });
});
