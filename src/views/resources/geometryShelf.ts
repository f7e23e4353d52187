import { BufferAttribute, BufferGeometry } from 'three';
import type { MeshShape, Shape } from '../../core/shape.ts';
import { tessellate } from '../../scene/tessellate.ts';

/*
 * Geometries by the content of their shapes. Moving a thing changes its transform, not its shape, so nothing is cut
 * into triangles again while it moves. Whoever shows a shape holds it; when the last one lets go it is disposed.
 */

interface Shelved {
  readonly geometry: BufferGeometry;
  holders: number;
}

const shelf = new Map<string, Shelved>();

/** The geometry of a shape, kept until {@link releaseGeometry} has been called as often as this. */
export function holdGeometry(shape: Shape): BufferGeometry {
  const key = shapeKey(shape);
  let shelved = shelf.get(key);
  if (!shelved) {
    shelved = { geometry: makeGeometry(shape), holders: 0 };
    shelf.set(key, shelved);
  }
  shelved.holders++;
  return shelved.geometry;
}

export function releaseGeometry(shape: Shape): void {
  const key = shapeKey(shape);
  const shelved = shelf.get(key);
  if (!shelved) return;
  shelved.holders--;
  if (shelved.holders > 0) return;
  shelf.delete(key);
  shelved.geometry.dispose();
}

/** For tests: how many geometries are held. */
export const shelvedCount = (): number => shelf.size;

function makeGeometry(shape: Shape): BufferGeometry {
  const { positionsM, normals, indices } = tessellate(shape);
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(positionsM, 3));
  geometry.setAttribute('normal', new BufferAttribute(normals, 3));
  geometry.setIndex(new BufferAttribute(indices, 1));
  geometry.computeBoundingSphere();
  return geometry;
}

/** Equal for shapes of equal content. */
export function shapeKey(shape: Shape): string {
  return shape.type === 'mesh' ? meshKey(shape) : JSON.stringify(shape);
}

const meshKeys = new WeakMap<MeshShape, string>();

function meshKey(shape: MeshShape): string {
  let key = meshKeys.get(shape);
  if (key === undefined) {
    const parts: (Float32Array | Uint32Array)[] = [shape.positionsM, shape.indices];
    if (shape.normals) parts.push(shape.normals);
    key = `mesh ${parts.map((part) => `${part.length}:${hashWords(part)}`).join(' ')}`;
    meshKeys.set(shape, key);
  }
  return key;
}

/** FNV-1a, 32 bits, over the words (Fowler, Noll, Vo; from memory). */
function hashWords(words: Float32Array | Uint32Array): number {
  const bits = new Uint32Array(words.buffer, words.byteOffset, words.length);
  let hash = 0x811c9dc5;
  for (const word of bits) hash = Math.imul(hash ^ word, 0x01000193);
  return hash >>> 0;
}
