import { fail, ok, type Result } from '../../core/result.ts';

const GLB_MAGIC = 0x46546c67;
const JSON_CHUNK = 0x4e4f534a;
const BINARY_CHUNK = 0x004e4942;
const HEADER_BYTES = 12;
const CHUNK_HEADER_BYTES = 8;
const MAX_FILE_BYTES = 64_000_000;
/** What packs triangles in ways that need a decoder of their own. */
const PACKED = ['KHR_draco_mesh_compression', 'EXT_meshopt_compression'];

type Json = Record<string, unknown>;

/**
 * The same glTF file (binary or text, glTF 2.0 section 4.4) with its triangles alone: pictures and materials are not
 * asked for, and nothing is left that a loader could fetch from elsewhere. The message of a fault is for people.
 */
export function gltfGeometry(bytes: ArrayBuffer): Result<ArrayBuffer, string> {
  if (bytes.byteLength > MAX_FILE_BYTES)
    return fail(`The file has ${Math.round(bytes.byteLength / 1e6)} MB; at most 64 MB can be brought in.`);
  const split = isBinary(bytes) ? splitBinary(bytes) : ok({ json: bytes, rest: [] });
  if (!split.ok) return split;
  let parsed: unknown;
  try {
    parsed = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(split.value.json));
  } catch {
    return fail('The file is no glTF: choose a .glb or .gltf file.');
  }
  if (typeof parsed !== 'object' || parsed === null || !('asset' in parsed) || !Array.isArray((parsed as Json).meshes))
    return fail('The file holds no glTF body: choose a .glb or .gltf file with a mesh in it.');
  const json = parsed as Json;
  const used = [json.extensionsRequired, json.extensionsUsed].flat().map(String);
  if (used.some((name) => PACKED.includes(name)))
    return fail('The triangles of the file are packed: save it again without mesh compression.');
  const buffers = Array.isArray(json.buffers) ? (json.buffers as Json[]) : [];
  if (buffers.length > 1) return fail('The file keeps its triangles in several parts: save it as one .glb file.');
  const uri = buffers[0]?.uri;
  if (uri === undefined) return ok(joinBinary(bare(json), split.value.rest));
  const inside = typeof uri === 'string' ? bytesOfDataUri(uri) : null;
  if (!inside) return fail('The file keeps its triangles in another file: save it as one .glb file.');
  return ok(joinBinary({ ...bare(json), buffers: [{ byteLength: inside.length }] }, [binaryChunk(inside)]));
}

/** The bytes of a base64 data address (RFC 2397); null for any other address. */
function bytesOfDataUri(uri: string): Uint8Array | null {
  const [, text] = /^data:[^,]*;base64,([A-Za-z0-9+/=]*)$/.exec(uri) ?? [];
  if (text === undefined) return null;
  try {
    return Uint8Array.from(atob(text), (character) => character.charCodeAt(0));
  } catch {
    return null;
  }
}

function binaryChunk(bytes: Uint8Array): ArrayBuffer {
  const out = new Uint8Array(CHUNK_HEADER_BYTES + Math.ceil(bytes.length / 4) * 4);
  const view = new DataView(out.buffer);
  view.setUint32(0, out.length - CHUNK_HEADER_BYTES, true);
  view.setUint32(4, BINARY_CHUNK, true);
  out.set(bytes, CHUNK_HEADER_BYTES);
  return out.buffer;
}

/** Without everything but nodes, meshes and their numbers. */
function bare(json: Json): Json {
  const { images, textures, samplers, materials, animations, skins, cameras, extensions, ...rest } = json;
  const meshes = (json.meshes as Json[]).map((mesh) => ({
    ...mesh,
    primitives: (Array.isArray(mesh.primitives) ? (mesh.primitives as Json[]) : []).map(
      ({ material, extensions: _extensions, ...primitive }) => primitive,
    ),
  }));
  const nodes = (Array.isArray(json.nodes) ? (json.nodes as Json[]) : []).map(
    ({ camera, skin, extensions: _extensions, ...node }) => node,
  );
  return { ...rest, meshes, nodes, extensionsUsed: undefined, extensionsRequired: undefined };
}

const isBinary = (bytes: ArrayBuffer): boolean =>
  bytes.byteLength >= HEADER_BYTES && new DataView(bytes).getUint32(0, true) === GLB_MAGIC;

interface Split {
  readonly json: ArrayBuffer;
  /** The chunks after the first, with their headers. */
  readonly rest: readonly ArrayBuffer[];
}

function splitBinary(bytes: ArrayBuffer): Result<Split, string> {
  const view = new DataView(bytes);
  const cut = 'The file is cut short or broken: save it again.';
  if (bytes.byteLength < HEADER_BYTES + CHUNK_HEADER_BYTES) return fail(cut);
  const size = view.getUint32(HEADER_BYTES, true);
  const from = HEADER_BYTES + CHUNK_HEADER_BYTES;
  if (view.getUint32(HEADER_BYTES + 4, true) !== JSON_CHUNK || from + size > bytes.byteLength) return fail(cut);
  return ok({ json: bytes.slice(from, from + size), rest: [bytes.slice(from + size)] });
}

function joinBinary(json: Json, rest: readonly ArrayBuffer[]): ArrayBuffer {
  const text = new TextEncoder().encode(JSON.stringify(json));
  const padded = Math.ceil(text.length / 4) * 4;
  const total = HEADER_BYTES + CHUNK_HEADER_BYTES + padded + rest.reduce((sum, part) => sum + part.byteLength, 0);
  const out = new Uint8Array(total).fill(0x20, HEADER_BYTES + CHUNK_HEADER_BYTES);
  const view = new DataView(out.buffer);
  view.setUint32(0, GLB_MAGIC, true);
  view.setUint32(4, 2, true);
  view.setUint32(8, total, true);
  view.setUint32(HEADER_BYTES, padded, true);
  view.setUint32(HEADER_BYTES + 4, JSON_CHUNK, true);
  out.set(text, HEADER_BYTES + CHUNK_HEADER_BYTES);
  let at = HEADER_BYTES + CHUNK_HEADER_BYTES + padded;
  for (const part of rest) {
    out.set(new Uint8Array(part), at);
    at += part.byteLength;
  }
  return out.buffer;
}
