import { PerspectiveCamera, Vector3 } from 'three';
import { expect, test } from 'vitest';
import { buildSet } from '../../../src/scene/buildSet.ts';
import { STAGE_FOV_DEG, stageHome } from '../../../src/views/stage/stageHome.ts';
import { stageTags } from '../../../src/views/stage/stageTags.ts';
import { makeScene } from '../drawing/makeScene.ts';

test.each([0.8, 1.4, 2])('lights, grip and camera lie in view at first, window %f wide for its height', (aspect) => {
  const scene = makeScene({ fixturePositionM: [1.6, 1.9, -1.4] });
  const { positionM, targetM } = stageHome(scene, buildSet(scene), aspect);
  const camera = new PerspectiveCamera(STAGE_FOV_DEG, aspect, 0.02, 60);
  camera.position.set(...positionM);
  camera.lookAt(...targetM);
  camera.updateMatrixWorld();
  const points = [
    scene.camera.positionM,
    ...scene.fixtures.map((fixture) => fixture.positionM),
    ...scene.grip.map((item) => item.positionM),
  ];
  for (const p of points) {
    const shown = new Vector3(...p).project(camera);
    expect(Math.abs(shown.x)).toBeLessThan(0.95);
    expect(Math.abs(shown.y)).toBeLessThan(0.95);
  }
});

test('the selected thing is named first, and what is moved says its height and distance', () => {
  const scene = makeScene({ fixturePositionM: [0.3, 1.3, -0.4] });
  const set = buildSet(scene);
  const still = stageTags(scene, set, 'fixture:key', null, false);
  expect(still[0]).toMatchObject({ id: 'fixture:key', emphasis: 'selected', text: 'Key' });
  expect(still.map(({ id }) => id)).toEqual(['fixture:key', 'camera', 'grip:flag']);
  const moved = stageTags(scene, set, 'fixture:key', null, true);
  // 0.3 and 0.4 m off the subject: 0.5 m.
  expect(moved[0]).toMatchObject({ emphasis: 'figure', text: '1.30 m up, 0.50 m away' });
});
