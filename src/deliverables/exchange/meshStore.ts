import type { Gltf, GltfAccessor, GltfBufferView, GltfMaterial, GltfPrimitive } from './gltfTypes.ts';
import type { Triangles } from './triangles.ts';

const FLOAT = 5126;
const UNSIGNED_INT = 5125;
const ARRAY_BUFFER = 34962;
const ELEMENT_ARRAY_BUFFER = 34963;

/** Collects meshes, one primitive for each material, into the lists and the one buffer of a glTF file. */
export function createMeshStore() {
  const meshes: NonNullable<Gltf['meshes']>[number][] = [];
  const materials: GltfMaterial[] = [];
  const accessors: GltfAccessor[] = [];
  const bufferViews: GltfBufferView[] = [];
  const chunks: Uint8Array[] = [];
  let byteLength = 0;
  let open: GltfPrimitive[] = [];

  const view = (data: Float32Array | Uint32Array, target: GltfBufferView['target']): number => {
    const bytes = littleEndian(data);
    bufferViews.push({ buffer: 0, byteOffset: byteLength, byteLength: bytes.length, target });
    chunks.push(bytes);
    byteLength += bytes.length;
    return bufferViews.length - 1;
  };
  const accessor = (made: GltfAccessor): number => accessors.push(made) - 1;
  const materialIndex = (material: GltfMaterial): number => {
    const key = JSON.stringify(material);
    const known = materials.findIndex((other) => JSON.stringify(other) === key);
    return known >= 0 ? known : materials.push(material) - 1;
  };

  return {
    /** Adds a primitive to the mesh that is open. */
    add(material: GltfMaterial, triangles: Triangles): void {
      if (triangles.indices.length === 0) return;
      const positions = Float32Array.from(triangles.positionsM);
      const normals = Float32Array.from(triangles.normals);
      const indices = Uint32Array.from(triangles.indices);
      const { min, max } = extentOf(positions);
      const count = positions.length / 3;
      open.push({
        attributes: {
          POSITION: accessor({
            bufferView: view(positions, ARRAY_BUFFER),
            componentType: FLOAT,
            count,
            type: 'VEC3',
            min,
            max,
          }),
          NORMAL: accessor({ bufferView: view(normals, ARRAY_BUFFER), componentType: FLOAT, count, type: 'VEC3' }),
        },
        indices: accessor({
          bufferView: view(indices, ELEMENT_ARRAY_BUFFER),
          componentType: UNSIGNED_INT,
          count: indices.length,
          type: 'SCALAR',
        }),
        material: materialIndex(material),
      });
    },
    /** Ends the open mesh; its index, or null when nothing was added to it. */
    close(name: string): number | null {
      if (open.length === 0) return null;
      meshes.push({ name, primitives: open });
      open = [];
      return meshes.length - 1;
    },
    finish() {
      const bin = new Uint8Array(byteLength);
      let at = 0;
      for (const chunk of chunks) {
        bin.set(chunk, at);
        at += chunk.length;
      }
      return { meshes, materials, accessors, bufferViews, bin };
    },
  };
}

/** glTF buffers are little-endian on every machine. */
function littleEndian(data: Float32Array | Uint32Array): Uint8Array {
  const bytes = new Uint8Array(data.length * 4);
  const out = new DataView(bytes.buffer);
  for (let i = 0; i < data.length; i++) {
    if (data instanceof Float32Array) out.setFloat32(4 * i, data[i], true);
    else out.setUint32(4 * i, data[i], true);
  }
  return bytes;
}

function extentOf(positions: Float32Array): { min: number[]; max: number[] } {
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  positions.forEach((value, i) => {
    min[i % 3] = Math.min(min[i % 3], value);
    max[i % 3] = Math.max(max[i % 3], value);
  });
  return { min, max };
}
