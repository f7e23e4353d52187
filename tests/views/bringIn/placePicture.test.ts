import { describe, expect, it } from 'vitest';
import { applyMergePatch } from '../../../src/document/mergePatch.ts';
import { storePictureRgb } from '../../../src/materials/picture.ts';
import { defaultPiece } from '../../../src/scene/pieceDefaults.ts';
import { type Piece, pieceSchema } from '../../../src/scene/records.ts';
import { pictureOnPiece } from '../../../src/views/bringIn/placePicture.ts';

/** Twice as wide as high. */
const pixels = { widthPx: 4, heightPx: 2, rgb: storePictureRgb(new Uint8Array(24).fill(128)) };
const laid = (piece: Piece): Piece => {
  const patch = pictureOnPiece(piece, pixels);
  if (!patch) throw new Error('no place for it');
  return pieceSchema.parse(applyMergePatch(piece, patch));
};
const pictureOf = (piece: Piece) => {
  const finish = piece.kind === 'glass' ? piece.label?.finish : 'finish' in piece ? piece.finish : undefined;
  if (finish?.type !== 'matte' || !finish.picture) throw new Error('no picture');
  return finish.picture;
};

describe('a picture laid on a piece', () => {
  it('covers the front of a wall, whole, without stretching', () => {
    const wall = defaultPiece('wall', 'piece:wall');
    if (wall.kind !== 'wall') throw new Error('another kind');
    const picture = pictureOf(laid({ ...wall, widthM: 1, heightM: 2 }));
    expect(picture).toMatchObject({ lies: 'upright', centreM: [0, 1], widthM: 4, heightM: 2 });
  });

  it('covers the top of a sheet that lies on the table', () => {
    const sheet = defaultPiece('sheet', 'piece:sheet');
    if (sheet.kind !== 'sheet') throw new Error('another kind');
    const picture = pictureOf(laid({ ...sheet, widthM: 0.6, depthM: 0.6 }));
    expect(picture).toMatchObject({ lies: 'level', centreM: [0, 0], widthM: 1.2, heightM: 0.6 });
  });

  it('fits on the label of a glass, with a label made for it, at the radius of the glass there', () => {
    const glass = defaultPiece('glass', 'piece:glass');
    if (glass.kind !== 'glass') throw new Error('another kind');
    const piece = laid({ ...glass, label: undefined });
    const picture = pictureOf(piece);
    expect(picture.lies).toBe('round');
    expect(picture.widthM / picture.heightM).toBeCloseTo(2, 9);
    expect(picture.radiusM).toBeGreaterThan(0.02);
    expect(picture.radiusM).toBeLessThan(0.06);
  });

  it('has no place on fruit', () => {
    expect(pictureOnPiece(defaultPiece('garnish', 'piece:lemon'), pixels)).toBeNull();
  });
});
