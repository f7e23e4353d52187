import { strToU8 } from 'fflate';
import { toBase64 } from '../paper/base64.ts';
import type { GltfScene } from './gltfFromFrame.ts';

const GLB_MAGIC = 0x46546c67;
const CHUNK_JSON = 0x4e4f534a;
const CHUNK_BIN = 0x004e4942;
const SPACE = 0x20;

/** One binary file (glTF 2.0 specification, section 4). */
export function writeGlb({ json, bin }: GltfScene): Uint8Array {
  const text = padTo4(strToU8(JSON.stringify(json)), SPACE);
  const body = padTo4(bin, 0);
  const hasBody = bin.length > 0;
  const length = 12 + 8 + text.length + (hasBody ? 8 + body.length : 0);
  const bytes = new Uint8Array(length);
  const out = new DataView(bytes.buffer);
  out.setUint32(0, GLB_MAGIC, true);
  out.setUint32(4, 2, true);
  out.setUint32(8, length, true);
  out.setUint32(12, text.length, true);
  out.setUint32(16, CHUNK_JSON, true);
  bytes.set(text, 20);
  if (hasBody) {
    const at = 20 + text.length;
    out.setUint32(at, body.length, true);
    out.setUint32(at + 4, CHUNK_BIN, true);
    bytes.set(body, at + 8);
  }
  return bytes;
}

/** One text file with the buffer inside it as a data address. */
export function writeGltf({ json, bin }: GltfScene): string {
  if (bin.length === 0) return `${JSON.stringify(json)}\n`;
  const uri = `data:application/octet-stream;base64,${toBase64(bin)}`;
  return `${JSON.stringify({ ...json, buffers: [{ byteLength: bin.length, uri }] })}\n`;
}

function padTo4(bytes: Uint8Array, filler: number): Uint8Array {
  const padded = new Uint8Array(Math.ceil(bytes.length / 4) * 4).fill(filler);
  padded.set(bytes);
  return padded;
}
