import { describe, expect, it } from 'vitest';
import { IDENTITY } from '../../../src/core/rigid.ts';
import { defaultDressing } from '../../../src/scene/dressingDefaults.ts';
import { dressingSchema } from '../../../src/scene/dressingRecords.ts';
import { buildOwnShape } from '../../../src/scene/ownShape/buildOwnShape.ts';
import { creasedMesh } from '../../../src/scene/ownShape/creasedMesh.ts';
import { countOpenEdges, volumeM3 } from '../../../src/scene/ownShape/meshWorth.ts';
import { sampleMesh } from '../../../src/scene/ownShape/sampleMesh.ts';
import { type MeshData, readStoredMesh, storeMesh } from '../../../src/scene/ownShape/storedMesh.ts';

const read = (mesh = sampleMesh()): MeshData => {
  const result = readStoredMesh(mesh);
  if (!result.ok) throw new Error(result.error.message);
  return result.value;
};
const own = (more: object) => {
  const piece = dressingSchema.parse({ ...defaultDressing('ownShape', 'piece:own'), ...more });
  if (piece.kind !== 'ownShape') throw new Error('another kind');
  return piece;
};

/** A ball of `rings` x 2 `rings` facets, radius 1. */
function ball(rings: number): MeshData {
  const corners: number[] = [];
  const triangles: number[] = [];
  const across = 2 * rings;
  for (let i = 0; i <= rings; i++)
    for (let j = 0; j < across; j++) {
      const [polar, turn] = [(Math.PI * i) / rings, (2 * Math.PI * j) / across];
      corners.push(Math.sin(polar) * Math.cos(turn), Math.cos(polar), Math.sin(polar) * Math.sin(turn));
    }
  for (let i = 0; i < rings; i++)
    for (let j = 0; j < across; j++) {
      const [a, b] = [i * across + j, i * across + ((j + 1) % across)];
      triangles.push(a, b, b + across, a, b + across, a + across);
    }
  return { cornersM: Float32Array.from(corners), triangles: Uint32Array.from(triangles) };
}

describe('a body from a file', () => {
  it('comes back from its text to the last bit', () => {
    const mesh = ball(9);
    expect(read(storeMesh(mesh))).toEqual(mesh);
  });

  it('has the volume of a box of 6 x 8 x 6 cm, and of a ball within what its facets cut off', () => {
    expect(volumeM3(read())).toBeCloseTo(0.06 * 0.08 * 0.06, 10);
    // 4/3 pi r^3.
    expect(volumeM3(ball(60)) / ((4 / 3) * Math.PI)).toBeCloseTo(1, 2);
  });

  it('is closed, or says along how many edges it is open', () => {
    const box = read();
    expect(countOpenEdges(box)).toBe(0);
    expect(countOpenEdges(ball(12))).toBe(0);
    expect(countOpenEdges({ ...box, triangles: box.triangles.slice(3) })).toBe(3);
    // One triangle turned over: its three edges are walked twice the same way.
    const turned = Uint32Array.from(box.triangles);
    [turned[0], turned[1]] = [turned[1], turned[0]];
    expect(countOpenEdges({ ...box, triangles: turned })).toBe(6);
  });

  it('keeps the edges of a box sharp and makes a ball smooth', () => {
    const box = creasedMesh(read(), 40);
    const longest = (normals: Float32Array | undefined): number[] =>
      Array.from({ length: (normals?.length ?? 0) / 3 }, (_, i) =>
        Math.max(...[0, 1, 2].map((k) => Math.abs(normals?.[3 * i + k] ?? 0))),
      );
    expect(Math.min(...longest(box.normals))).toBeCloseTo(1, 6);
    const round = creasedMesh(ball(36), 40);
    // The exact normal of a ball of radius 1 at a corner is the corner itself.
    const worst = Math.max(...Array.from(round.positionsM, (value, i) => Math.abs(value - (round.normals?.[i] ?? 0))));
    expect(worst).toBeLessThan(0.02);
  });

  it('is one clear solid when it is closed, and says what to do when it is not', () => {
    const clear = { finish: { type: 'clear' } };
    const solid = buildOwnShape(own(clear), IDENTITY);
    expect(solid.diagnostics).toEqual([]);
    expect(solid.volumes.length).toBe(1);
    const box = read();
    const opened = buildOwnShape(
      own({ ...clear, mesh: storeMesh({ ...box, triangles: box.triangles.slice(3) }) }),
      IDENTITY,
    );
    expect(opened.surfaces).toEqual([]);
    expect(opened.diagnostics[0]).toMatchObject({ code: 'own-shape-open', field: 'finish' });
    expect(opened.diagnostics[0].message).toContain('open along 3 edges');
  });

  it.each([
    ['corners cut short', { cornersM: 'AAAA' }, 'mesh.cornersM'],
    [
      'corners that are no numbers',
      {
        cornersM: storeMesh({ cornersM: new Float32Array(9).fill(Number.NaN), triangles: new Uint32Array(3) }).cornersM,
      },
      'mesh.cornersM',
    ],
    [
      'a corner that is not there',
      { triangles: storeMesh({ cornersM: new Float32Array(3), triangles: Uint32Array.from([0, 1, 99]) }).triangles },
      'mesh.triangles',
    ],
    ['text that is no base64url', { triangles: '????' }, 'mesh.triangles'],
  ])('with %s is left out and names the field', (_, more, field) => {
    const built = buildOwnShape(own({ mesh: { ...sampleMesh(), ...more } }), IDENTITY);
    expect(built.surfaces).toEqual([]);
    expect(built.diagnostics[0]).toMatchObject({ severity: 'error', field });
  });
});
