import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { World } from '../../src/transport/contracts.ts';
import type { Picture } from './traceItem.ts';

/** Keeps traced pictures in a folder, so that only those whose world, camera or size has changed are traced again. */
export interface PictureShelf {
  keyOf(world: World, rest: string): string;
  take(key: string, size: { readonly widthPx: number; readonly heightPx: number }): Picture | null;
  put(key: string, picture: Picture): void;
}

export function createPictureShelf(folder: string): PictureShelf {
  mkdirSync(folder, { recursive: true });
  const pathOf = (key: string): string => join(folder, `${key}.rgb`);
  return {
    keyOf(world, rest) {
      const hash = createHash('sha256').update(world.layoutHash).update(rest);
      for (const words of [
        world.primitiveWords,
        world.transformWords,
        world.finishWords,
        world.volumeWords,
        world.emitterWords,
        world.normalWords,
        world.profileWords,
      ])
        hash.update(new Uint8Array(words.buffer, words.byteOffset, words.byteLength));
      return hash.digest('hex').slice(0, 32);
    },
    take(key, { widthPx, heightPx }) {
      if (!existsSync(pathOf(key))) return null;
      const rgb = new Uint8Array(readFileSync(pathOf(key)));
      return rgb.length === widthPx * heightPx * 3 ? { widthPx, heightPx, rgb } : null;
    },
    put: (key, { rgb }) => writeFileSync(pathOf(key), rgb),
  };
}
