import { expect, test } from 'vitest';
import { cameraView } from '../../../src/camera/projection.ts';
import { buildSet } from '../../../src/scene/buildSet.ts';
import { type Piece, pieceSchema } from '../../../src/scene/records.ts';
import { chooseMirror } from '../../../src/views/quick/chooseMirror.ts';
import { makeScene } from '../drawing/makeScene.ts';

const sheet = (id: string, sideM: number, finish: object, heightM = 0): Piece =>
  pieceSchema.parse({
    kind: 'sheet',
    id,
    name: id,
    positionM: [0, heightM, 0],
    widthM: sideM,
    depthM: sideM,
    thicknessM: 0.005,
    finish,
  });
const black = { type: 'gloss', reflectanceRgb: [0.01, 0.01, 0.01], roughness: 0 };

function mirrorOf(pieces: readonly Piece[], cameraPositionM: [number, number, number] = [0, 0.4, 1.2]) {
  const scene = { ...makeScene({ cameraPositionM }), pieces };
  return chooseMirror(buildSet(scene).surfaces, cameraView(scene.camera));
}

test('the top of the largest gloss sheet is the mirror, its normal up, 5 mm over the table', () => {
  const mirror = mirrorOf([sheet('small', 0.2, black, 0.02), sheet('large', 0.6, black)]);
  expect(mirror?.surface.recordId).toBe('large');
  expect(mirror?.normal[1]).toBeCloseTo(1, 12);
  expect(mirror?.pointM[1]).toBeCloseTo(0.005, 9);
});

test('matte and rough sheets mirror nothing', () => {
  const matte = { type: 'matte', reflectanceRgb: [0.5, 0.5, 0.5] };
  expect(mirrorOf([sheet('matte', 0.6, matte), sheet('rough', 0.6, { ...black, roughness: 0.6 })])).toBeNull();
});

test('from under the table its top is not seen', () => {
  const mirror = mirrorOf([sheet('large', 0.6, black)], [0, -0.6, 0.3]);
  expect(mirror?.normal[1] ?? 0).toBeLessThan(0.5);
});
