import type { BufferGeometry, Mesh, Object3D } from 'three';
import { Vector3 } from 'three';
import { GLTFLoader } from 'three/examples/jsm/loaders/GLTFLoader.js';
import { fail, ok, type Result } from '../../core/result.ts';
import { countOpenEdges, volumeM3 } from '../../scene/ownShape/meshWorth.ts';
import { MAX_TRIANGLES, type MeshData } from '../../scene/ownShape/storedMesh.ts';
import { gltfGeometry } from './gltfGeometry.ts';

/** A body as its file has it: in the units of the file, the middle of its foot at the origin. */
export interface FoundBody {
  readonly mesh: MeshData;
  /** Width, height and depth in the units of the file. */
  readonly size: readonly [number, number, number];
  readonly triangleCount: number;
  /** 0 for a closed body, which can be filled with glass. */
  readonly openEdges: number;
}

/** All the triangles of a glTF file as one body. The message of a fault is for people. */
export async function readBody(bytes: ArrayBuffer): Promise<Result<FoundBody, string>> {
  const geometry = gltfGeometry(bytes);
  if (!geometry.ok) return geometry;
  let scene: Object3D;
  try {
    scene = (await new GLTFLoader().parseAsync(geometry.value, '')).scene;
  } catch {
    return fail('The file could not be read: it is cut short or broken. Save it again as glTF 2.0.');
  }
  const mesh = gather(scene);
  const triangleCount = mesh.triangles.length / 3;
  if (triangleCount === 0) return fail('The file holds no triangles: choose one with a body in it.');
  if (triangleCount > MAX_TRIANGLES)
    return fail(
      `The body has ${triangleCount} triangles; at most ${MAX_TRIANGLES} can be brought in. Reduce it where it was drawn.`,
    );
  if (!mesh.cornersM.every(Number.isFinite)) return fail('A corner of the body is no number: save the file again.');
  const { low, high } = boundsOf(mesh.cornersM);
  const size = [high[0] - low[0], high[1] - low[1], high[2] - low[2]] as const;
  if (Math.max(...size) === 0) return fail('All corners of the body are in one place: save the file again.');
  const foot = [(low[0] + high[0]) / 2, low[1], (low[2] + high[2]) / 2];
  const cornersM = mesh.cornersM.map((value, i) => value - foot[i % 3]);
  const standing = { cornersM, triangles: mesh.triangles };
  // Closed bodies are measured in a size of the order of a metre, where corners are told apart.
  const openEdges = countOpenEdges({ ...standing, cornersM: cornersM.map((value) => value / Math.max(...size)) });
  return ok({
    mesh: openEdges === 0 && volumeM3(standing) < 0 ? turnedOut(standing) : standing,
    size,
    triangleCount,
    openEdges,
  });
}

function gather(scene: Object3D): MeshData {
  scene.updateMatrixWorld(true);
  const corners: number[] = [];
  const triangles: number[] = [];
  const at = new Vector3();
  scene.traverse((object) => {
    const { geometry, isMesh, matrixWorld } = object as Mesh<BufferGeometry> & { readonly isMesh?: boolean };
    if (!isMesh) return;
    const first = corners.length / 3;
    const position = geometry.getAttribute('position');
    for (let i = 0; i < position.count; i++) {
      at.fromBufferAttribute(position, i).applyMatrix4(matrixWorld);
      corners.push(at.x, at.y, at.z);
    }
    const count = geometry.index?.count ?? position.count;
    const isMirrored = matrixWorld.determinant() < 0;
    for (let k = 0; k + 2 < count; k += 3) {
      const [a, b, c] = [k, k + 1, k + 2].map((i) => first + (geometry.index?.getX(i) ?? i));
      triangles.push(a, isMirrored ? c : b, isMirrored ? b : c);
    }
  });
  return { cornersM: Float32Array.from(corners), triangles: Uint32Array.from(triangles) };
}

function boundsOf(corners: Float32Array): { readonly low: number[]; readonly high: number[] } {
  const low = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const high = low.map((value) => -value);
  corners.forEach((value, i) => {
    low[i % 3] = Math.min(low[i % 3], value);
    high[i % 3] = Math.max(high[i % 3], value);
  });
  return { low, high };
}

const turnedOut = ({ cornersM, triangles }: MeshData): MeshData => ({
  cornersM,
  triangles: Uint32Array.from(triangles, (_, k) => triangles[k % 3 === 0 ? k : k % 3 === 1 ? k + 1 : k - 1]),
});
