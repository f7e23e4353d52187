import { expect, test } from 'vitest';
import { buildSet } from '../../../src/scene/buildSet.ts';
import { pieceSchema } from '../../../src/scene/records.ts';
import { glassProfileModel, MEDIUM } from '../../../src/views/resources/shading/glassProfile.ts';
import { makeScene } from '../drawing/makeScene.ts';

const tea = pieceSchema.parse({
  kind: 'glass',
  id: 'piece:tea',
  name: 'Tea',
  positionM: [0.1, 0, -0.2],
  profile: {
    shape: 'highball',
    heightM: 0.15,
    rimDiameterM: 0.07,
    baseDiameterM: 0.06,
    wallM: 0.002,
    baseThicknessM: 0.012,
  },
  glassIndex: 1.52,
  drink: { name: 'tea', index: 1.34, absorptionPerM: [5, 20, 60], fillFraction: 0.75, meniscusM: 0 },
});

function model() {
  const set = buildSet({ ...makeScene(), pieces: [tea] });
  const made = glassProfileModel(
    set.surfaces.filter(({ recordId }) => recordId === 'piece:tea'),
    set.volumes,
  );
  if (!made) throw new Error('no vessel');
  return made;
}

test('a ray from outside meets glass first, and the drink behind the wall', () => {
  const { segments, levelM } = model();
  const media = (r: number, y: number) =>
    segments
      .filter(({ from, to }) => Math.min(from.yM, to.yM) <= y && y <= Math.max(from.yM, to.yM))
      .filter(({ from, to }) => Math.abs((from.rM + to.rM) / 2 - r) < 0.004 && Math.abs(from.yM - to.yM) > 0.01)
      .map(({ frontMedium, backMedium }) => [frontMedium, backMedium]);
  // Half way up the drink: outer wall air to glass, inner wall drink to glass.
  expect(media(0.0325, 0.06)).toEqual(
    expect.arrayContaining([
      [MEDIUM.air, MEDIUM.glass],
      [MEDIUM.drink, MEDIUM.glass],
    ]),
  );
  // 12 mm of base and 0.75 of the 138 mm over it.
  expect(levelM).toBeCloseTo(0.012 + 0.75 * 0.138, 3);
});

test('the profile is one chain: each segment begins where another ends', () => {
  const { segments } = model();
  const ends = segments.map(({ to }) => [to.rM, to.yM]);
  const starts = segments.map(({ from }) => [from.rM, from.yM]);
  const loose = starts.filter(([r, y]) => r > 1e-6 && !ends.some(([er, ey]) => Math.hypot(r - er, y - ey) < 1e-6));
  expect(loose).toEqual([]);
});

test('media carry the record: indices and absorption per metre', () => {
  const { indices, absorptionsPerM, footM } = model();
  expect(indices.slice(0, 3)).toEqual([1, 1.52, 1.34]);
  expect(absorptionsPerM[MEDIUM.drink]).toEqual([5, 20, 60]);
  expect(footM[0]).toBeCloseTo(0.1, 12);
  expect(footM[2]).toBeCloseTo(-0.2, 12);
});

test('frost lies on the outside alone, and a cut that fits goes along with its turn', () => {
  const frosted = pieceSchema.parse({ ...tea, headingDeg: 30, frost: 0.5 });
  const cut = { style: 'flutes', count: 20, depthM: 0.0004, bottomM: 0.02, topM: 0.1 } as const;
  const fluted = pieceSchema.parse({ ...tea, headingDeg: 30, cut });
  const modelOf = (piece: typeof tea) => {
    const set = buildSet({ ...makeScene(), pieces: [piece] });
    const own = set.surfaces.filter(({ recordId }) => recordId === 'piece:tea');
    return glassProfileModel(own, set.volumes, piece.kind === 'glass' ? piece.cut : undefined);
  };
  const rough = modelOf(frosted)?.segments.filter(({ roughness }) => roughness > 0) ?? [];
  expect(rough.length).toBeGreaterThan(0);
  // The inside of the wall is at 33 mm and less; no rough segment may stand there above the base.
  expect(rough.filter(({ from, to }) => from.rM < 0.028 && Math.min(from.yM, to.yM) > 0.013)).toEqual([]);
  expect(modelOf(tea)?.cut).toBeNull();
  const model = modelOf(fluted)?.cut;
  expect(model).toMatchObject({ style: 'flutes', count: 20 });
  // 30 degrees counter-clockwise from above carry +x toward -z, and azimuth runs from +x to +z.
  expect(model?.turnRad).toBeCloseTo(-Math.PI / 6, 6);
});
