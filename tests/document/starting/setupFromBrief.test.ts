import { describe, expect, it } from 'vitest';
import { cameraView, projectPoint } from '../../../src/camera/projection.ts';
import { resolveFrame } from '../../../src/document/resolveFrame.ts';
import {
  type Brief,
  emptyTable,
  FIRST_BRIEF,
  FORMAT_SENSOR_MM,
  hasStandIn,
  MOODS,
  PICTURE_FORMATS,
  SURFACE_CHOICES,
  setupFromBrief,
} from '../../../src/document/starting/index.ts';
import { buildSet } from '../../../src/scene/buildSet.ts';
import { GLASS_SHAPES } from '../../../src/scene/glassDefaults.ts';
import { shelfOf } from '../../../src/scene/pieceShelf.ts';

const sceneOf = (brief: Brief) => {
  const scene = resolveFrame(setupFromBrief(brief), 'frame:1');
  if (!scene.ok) throw new Error('the frame resolves');
  return scene.value;
};

/** Where foot and rim of the hero fall in the frame, v down, 0..1. */
function heroInFrame(brief: Brief): { rim: number; foot: number } {
  const scene = sceneOf(brief);
  const bounds = buildSet(scene).boundsByRecord.get(scene.subject.pieceId);
  if (!bounds) throw new Error('the hero is made');
  const view = cameraView(scene.camera);
  const v = (heightM: number) => projectPoint(view, [0, heightM, 0])?.v ?? Number.NaN;
  const profile = scene.pieces[0];
  const rimM = profile.kind === 'glass' && 'heightM' in profile.profile ? profile.profile.heightM : bounds.maxM[1];
  return { rim: v(rimM), foot: v(0) };
}

describe('a setup from a brief', () => {
  it.each(MOODS.map(({ mood }) => mood))('is whole, lit and stands on the table at y = 0: %s', (mood) => {
    const { surfaceId } = MOODS.find((entry) => entry.mood === mood) ?? MOODS[0];
    const scene = sceneOf({ ...FIRST_BRIEF, mood, surfaceId });
    expect(scene.fixtures.some(({ on }) => on)).toBe(true);
    const set = buildSet(scene);
    expect(set.diagnostics.filter(({ severity }) => severity === 'error')).toEqual([]);
    // What the hero stands on has its top at the origin.
    const tops = scene.pieces.slice(1).map(({ id }) => set.boundsByRecord.get(id)?.maxM[1] ?? -1);
    expect(tops.some((topM) => Math.abs(topM) < 1e-6) || scene.pieces[1].kind === 'sweep').toBe(true);
  });

  it.each(PICTURE_FORMATS)(
    'has the glass whole in the frame at %s, between a quarter and two thirds of its height',
    (format) => {
      const { rim, foot } = heroInFrame({ ...FIRST_BRIEF, format });
      expect(rim).toBeGreaterThan(0.05);
      expect(foot).toBeLessThan(0.95);
      expect(foot - rim).toBeGreaterThan(0.25);
      expect(foot - rim).toBeLessThan(0.67);
      const { camera } = sceneOf({ ...FIRST_BRIEF, format });
      expect([camera.sensorWidthMm, camera.sensorHeightMm]).toEqual(FORMAT_SENSOR_MM[format]);
      const [across, down] = format.split(':').map(Number);
      expect(camera.sensorWidthMm / camera.sensorHeightMm).toBeCloseTo(across / down, 2);
    },
  );

  it('can be made of every drink, every glass and every surface that is offered', () => {
    for (const { id } of shelfOf('drinks'))
      expect(setupFromBrief({ ...FIRST_BRIEF, drinkId: id }).pieces[0].kind).toBe('glass');
    for (const glass of GLASS_SHAPES) {
      const [hero] = setupFromBrief({ ...FIRST_BRIEF, glass }).pieces;
      expect(hero.kind === 'glass' && hero.profile.shape).toBe(glass);
    }
    for (const surfaceId of SURFACE_CHOICES)
      expect(setupFromBrief({ ...FIRST_BRIEF, surfaceId }).pieces.length).toBeGreaterThan(1);
  });
});

describe('an empty table', () => {
  it('has a stand-in of 18 % grey for the hero, a camera, and no light', () => {
    const setup = emptyTable();
    expect(hasStandIn(setup)).toBe(true);
    expect(setup.fixtures).toEqual([]);
    expect(setup.pieces.map(({ kind }) => kind)).toEqual(['plinthCylinder', 'tabletop']);
  });
});
