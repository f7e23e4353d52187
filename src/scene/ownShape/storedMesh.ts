import { z } from 'zod';
import { fromBase64Url, toBase64Url } from '../../core/base64Url.ts';
import { fail, ok, type Result } from '../../core/result.ts';

/** A body finer than this slows every drag; what brings a file in says so. */
export const MAX_TRIANGLES = 60_000;
const MAX_CORNERS = 3 * MAX_TRIANGLES;
const BYTES_OF_CORNER = 12;
const BYTES_OF_TRIANGLE = 12;
/** Further from its foot than this, a figure is a slip of units. */
const MAX_REACH_M = 20;
const digitsFor = (bytes: number): number => Math.ceil((bytes * 4) / 3);

/** The corners and triangles of a body as text: base64url (RFC 4648 section 5) of little-endian numbers. */
export const storedMeshSchema = z.object({
  cornersM: z
    .string()
    .min(1)
    .max(digitsFor(MAX_CORNERS * BYTES_OF_CORNER))
    .describe('x, y, z of each corner as 32-bit floats, metres from the middle of the foot.'),
  triangles: z
    .string()
    .min(1)
    .max(digitsFor(MAX_TRIANGLES * BYTES_OF_TRIANGLE))
    .describe('Three corner numbers of each triangle as 32-bit integers, counter-clockwise from outside.'),
});
export type StoredMesh = z.infer<typeof storedMeshSchema>;

export interface MeshData {
  /** n x 3, metres. */
  readonly cornersM: Float32Array;
  /** m x 3. */
  readonly triangles: Uint32Array;
}

export interface MeshFault {
  readonly field: 'cornersM' | 'triangles';
  readonly message: string;
}

export function storeMesh({ cornersM, triangles }: MeshData): StoredMesh {
  const bytes = new DataView(new ArrayBuffer(cornersM.length * 4));
  cornersM.forEach((value, i) => {
    bytes.setFloat32(4 * i, value, true);
  });
  const numbers = new DataView(new ArrayBuffer(triangles.length * 4));
  triangles.forEach((value, i) => {
    numbers.setUint32(4 * i, value, true);
  });
  return {
    cornersM: toBase64Url(new Uint8Array(bytes.buffer)),
    triangles: toBase64Url(new Uint8Array(numbers.buffer)),
  };
}

/** Reading takes longer than building; a record that did not change is the same object. */
const kept = new WeakMap<StoredMesh, Result<MeshData, MeshFault>>();

export function readStoredMesh(stored: StoredMesh): Result<MeshData, MeshFault> {
  const known = kept.get(stored);
  if (known) return known;
  const read = decode(stored);
  kept.set(stored, read);
  return read;
}

const MEND = 'Bring the file in again.';

function decode(stored: StoredMesh): Result<MeshData, MeshFault> {
  const corners = fromBase64Url(stored.cornersM);
  if (!corners || corners.length % BYTES_OF_CORNER !== 0)
    return fail({ field: 'cornersM', message: `The corners are no whole run of three 32-bit floats. ${MEND}` });
  const numbers = fromBase64Url(stored.triangles);
  if (!numbers || numbers.length % BYTES_OF_TRIANGLE !== 0)
    return fail({ field: 'triangles', message: `The triangles are no whole run of three 32-bit integers. ${MEND}` });
  const cornerView = new DataView(corners.buffer, corners.byteOffset, corners.length);
  const cornersM = Float32Array.from({ length: corners.length / 4 }, (_, i) => cornerView.getFloat32(4 * i, true));
  if (!cornersM.every((value) => Math.abs(value) <= MAX_REACH_M))
    return fail({ field: 'cornersM', message: `A corner is no number, or over ${MAX_REACH_M} m away. ${MEND}` });
  const numberView = new DataView(numbers.buffer, numbers.byteOffset, numbers.length);
  const triangles = Uint32Array.from({ length: numbers.length / 4 }, (_, i) => numberView.getUint32(4 * i, true));
  const count = cornersM.length / 3;
  if (!triangles.every((corner) => corner < count))
    return fail({ field: 'triangles', message: `A triangle names a corner that is not there. ${MEND}` });
  return ok({ cornersM, triangles });
}
