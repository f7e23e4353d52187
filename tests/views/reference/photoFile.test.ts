import { describe, expect, it } from 'vitest';
import { isPictureFile, keptSize } from '../../../src/views/reference/photoFile.ts';

describe('a reference photo', () => {
  it('is brought down to 1600 px on its longer side in its own shape, and never enlarged', () => {
    expect(keptSize(6000, 4000)).toEqual({ widthPx: 1600, heightPx: 1067 });
    expect(keptSize(4000, 6000)).toEqual({ widthPx: 1067, heightPx: 1600 });
    expect(keptSize(800, 500)).toEqual({ widthPx: 800, heightPx: 500 });
    expect(keptSize(20_000, 3)).toEqual({ widthPx: 1600, heightPx: 1 });
  });

  it('is told from a setup by its type, else by its name', () => {
    expect(isPictureFile({ type: 'image/jpeg', name: 'a' })).toBe(true);
    expect(isPictureFile({ type: '', name: 'Mood.HEIC' })).toBe(true);
    expect(isPictureFile({ type: 'application/json', name: 'setup.json' })).toBe(false);
  });
});
