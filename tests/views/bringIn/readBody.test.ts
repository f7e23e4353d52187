import { BoxGeometry, type BufferGeometry, CylinderGeometry, PlaneGeometry } from 'three';
import { describe, expect, it } from 'vitest';
import { volumeM3 } from '../../../src/scene/ownShape/meshWorth.ts';
import { likelyUnit } from '../../../src/views/bringIn/bodyUnits.ts';
import { readBody } from '../../../src/views/bringIn/readBody.ts';

interface Change {
  readonly node?: object;
  readonly buffer?: object;
  readonly more?: object;
}

/** A glTF 2.0 text of one mesh by the letter of the specification (sections 3.6 and 3.7), as any program writes it. */
function gltf(geometry: BufferGeometry, { node = {}, buffer = {}, more = {} }: Change = {}): ArrayBuffer {
  const positions = Float32Array.from(geometry.getAttribute('position').array);
  const indices = Uint32Array.from(geometry.index?.array ?? []);
  const bytes = Buffer.concat([Buffer.from(positions.buffer), Buffer.from(indices.buffer)]);
  const text = JSON.stringify({
    asset: { version: '2.0' },
    scene: 0,
    scenes: [{ nodes: [0] }],
    nodes: [{ mesh: 0, ...node }],
    meshes: [{ primitives: [{ attributes: { POSITION: 0 }, indices: 1, material: 0 }] }],
    materials: [{ pbrMetallicRoughness: { baseColorTexture: { index: 0 } } }],
    textures: [{ source: 0 }],
    images: [{ uri: 'https://elsewhere.invalid/picture.png' }],
    accessors: [
      {
        bufferView: 0,
        componentType: 5126,
        count: positions.length / 3,
        type: 'VEC3',
        min: [-9, -9, -9],
        max: [9, 9, 9],
      },
      { bufferView: 1, componentType: 5125, count: indices.length, type: 'SCALAR' },
    ],
    bufferViews: [
      { buffer: 0, byteOffset: 0, byteLength: positions.byteLength },
      { buffer: 0, byteOffset: positions.byteLength, byteLength: indices.byteLength },
    ],
    buffers: [
      { byteLength: bytes.length, uri: `data:application/octet-stream;base64,${bytes.toString('base64')}`, ...buffer },
    ],
    ...more,
  });
  return new TextEncoder().encode(text).buffer;
}

describe('a body in a glTF file', () => {
  it('comes in on its foot, with its place and size in the file, and its pictures left where they are', async () => {
    const file = gltf(new BoxGeometry(2, 3, 4), { node: { translation: [10, 20, 30], scale: [2, 1, 1] } });
    const read = await readBody(file);
    if (!read.ok) throw new Error(read.error);
    expect(read.value.size).toEqual([4, 3, 4]);
    expect(read.value.openEdges).toBe(0);
    expect(volumeM3(read.value.mesh)).toBeCloseTo(48, 4);
    const heights = read.value.mesh.cornersM.filter((_, i) => i % 3 === 1);
    expect([Math.min(...heights), Math.max(...heights)]).toEqual([0, 3]);
  });

  it('is turned right side out when the file has it mirrored or inside out', async () => {
    const mirrored = await readBody(gltf(new CylinderGeometry(1, 1, 2, 64), { node: { scale: [-1, 1, 1] } }));
    const inside = new BoxGeometry(1, 1, 1);
    inside.setIndex([...(inside.index?.array ?? [])].reverse());
    const turned = await readBody(gltf(inside));
    if (!mirrored.ok || !turned.ok) throw new Error('not read');
    // A prism of 64 sides: half 64 sin(2 pi / 64) times the height.
    expect(volumeM3(mirrored.value.mesh)).toBeCloseTo(64 * Math.sin((2 * Math.PI) / 64), 4);
    expect(volumeM3(turned.value.mesh)).toBeCloseTo(1, 5);
  });

  it('says along how many edges it is open', async () => {
    const read = await readBody(gltf(new PlaneGeometry(1, 1)));
    expect(read.ok && read.value.openEdges).toBe(4);
  });

  it.each([
    [
      'another file that it wants',
      gltf(new BoxGeometry(), { buffer: { uri: 'https://elsewhere.invalid/a.bin' } }),
      'one .glb file',
    ],
    [
      'packed triangles',
      gltf(new BoxGeometry(), { more: { extensionsRequired: ['KHR_draco_mesh_compression'] } }),
      'without mesh compression',
    ],
    ['no mesh', gltf(new BoxGeometry(), { more: { meshes: [] } }), 'broken'],
    ['a corner that is not there', gltf(new BoxGeometry(), { more: { bufferViews: [] } }), 'broken'],
    ['text that is no JSON', new TextEncoder().encode('solid teapot').buffer, 'no glTF'],
    ['a binary cut short', new TextEncoder().encode('glTF\u0002\u0000\u0000\u0000').buffer, 'no glTF'],
    ['more triangles than can be drawn', gltf(new PlaneGeometry(1, 1, 200, 200)), 'at most 60000'],
  ])('with %s is refused in one sentence', async (_, bytes, words) => {
    const read = await readBody(bytes);
    expect(read.ok ? 'read' : read.error).toContain(words);
  });
});

describe('the unit that is asked first', () => {
  it.each([
    [[0.08, 0.3, 0.08], 'm'],
    [[8, 30, 8], 'cm'],
    [[80, 300, 80], 'mm'],
  ] as const)('of a bottle of %j is %s', (size, unit) => {
    expect(likelyUnit(size)).toBe(unit);
  });
});
