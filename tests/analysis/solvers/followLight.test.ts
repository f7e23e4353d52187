import { describe, expect, it } from 'vitest';
import { findHighlight, lightForHighlight } from '../../../src/analysis/solvers/followHighlight.ts';
import { findShadow, lightForShadow } from '../../../src/analysis/solvers/followShadow.ts';
import { cameraView, projectPoint } from '../../../src/camera/projection.ts';
import { cameraSchema } from '../../../src/camera/records.ts';
import { add, addScaled, distance, normalize, scale, sub, type Vec3 } from '../../../src/core/vec3.ts';
import { type Fixture, fixtureSchema } from '../../../src/fixtures/records.ts';
import { buildSet } from '../../../src/scene/buildSet.ts';
import { pieceSchema } from '../../../src/scene/records.ts';
import type { FrameScene } from '../../../src/scene/setModel.ts';
import { compileWorld } from '../../../src/transport/compile/compileWorld.ts';
import { createRayQuery } from '../../../src/transport/cpu/rayQuery.ts';

const LIGHT_M: Vec3 = [0.1, 0.6, -0.5];

/** A mirror lying at y = 0, a grey post 0.1 m high on it, a bulb, a camera that looks down on them. */
function study(positionM: Vec3 = LIGHT_M) {
  const bulb = fixtureSchema.parse({
    kind: 'bulb',
    id: 'fixture:1',
    name: 'Bulb',
    positionM: [...positionM],
    aimM: [0, 0, 0],
    diameterM: 0.08,
    output: { unit: 'lumens', value: 800 },
  });
  const sheet = {
    kind: 'sheet',
    id: 'piece:mirror',
    name: 'Mirror',
    positionM: [0, -0.005, 0],
    widthM: 2,
    depthM: 2,
    finish: { type: 'mirror', reflectanceRgb: [0.9, 0.9, 0.9] },
  };
  const post = {
    kind: 'plinthCylinder',
    id: 'piece:post',
    name: 'Post',
    positionM: [-0.3, 0, 0],
    diameterM: 0.02,
    heightM: 0.1,
    edgeRadiusM: 0,
    finish: { type: 'matte', reflectanceRgb: [0.2, 0.2, 0.2] },
  };
  const scene: FrameScene = {
    pieces: [sheet, post].map((piece) => pieceSchema.parse(piece)),
    fixtures: [bulb],
    grip: [],
    camera: cameraSchema.parse({
      positionM: [0, 0.7, 1.2],
      aimM: [0, 0, 0],
      focalLengthMm: 35,
      focusDistanceM: 1.4,
      apertureFNumber: 8,
      shutterS: 0.02,
      iso: 400,
    }),
    subject: { pieceId: 'piece:post', meterPointM: [-0.3, 0.05, 0] },
    turntableAngleDeg: 0,
  };
  const set = buildSet(scene);
  const view = cameraView(scene.camera);
  const at = (pointM: Vec3) => {
    const place = projectPoint(view, pointM);
    if (!place) throw new Error('before the lens');
    return [place.u, place.v] as const;
  };
  return {
    set,
    view,
    query: createRayQuery(compileWorld(set)),
    at,
    lens: scene.camera.positionM,
    bulb: bulb as Fixture,
  };
}

/** Mirror point on y = 0 between the lens and a light: where the line from the lens to the light's image meets it. */
function mirrorPoint(lensM: Vec3, lightM: Vec3): Vec3 {
  const image: Vec3 = [lightM[0], -lightM[1], lightM[2]];
  const t = lensM[1] / (lensM[1] + lightM[1]);
  return add(scale(lensM, 1 - t), scale(image, t));
}

describe('a highlight by hand', () => {
  it('is found where the law of reflection puts it: on the line from the lens to the image of the light', () => {
    const { query, set, view, at, lens } = study();
    const [u, v] = at(mirrorPoint(lens, LIGHT_M));
    const found = findHighlight(query, set, view, u, v);
    expect(found?.fixtureId).toBe('fixture:1');
    // To the near side of the bulb, 4 cm from its middle.
    expect(found?.distanceM).toBeCloseTo(distance(mirrorPoint(lens, LIGHT_M), LIGHT_M) - 0.04, 3);
    expect(findHighlight(query, set, view, u + 0.2, v)).toBeNull();
  });

  it('takes the light to where its image lies under the pointer, at the same distance', () => {
    const { query, set, view, at, lens } = study();
    const wantedM: Vec3 = [-0.2, 0.5, -0.6];
    const mirrorM = mirrorPoint(lens, wantedM);
    const placeM = lightForHighlight(query, set, view, at(mirrorM), distance(mirrorM, wantedM));
    if (!placeM) throw new Error('there is a place');
    expect(distance(placeM, wantedM)).toBeLessThan(1e-4);
  });

  it('gives no place on a matte thing', () => {
    const { query, set, view, at } = study();
    expect(lightForHighlight(query, set, view, at([-0.3, 0.05, 0.01]), 0.5)).toBeNull();
  });
});

describe('a shadow by hand', () => {
  // Similar triangles: the top edge of the post, the light and the tip of the shadow lie on one line.
  const topM: Vec3 = [-0.31, 0.1, 0];
  const tipOf = (lightM: Vec3): Vec3 => {
    const away = sub(topM, lightM);
    return addScaled(topM, away, topM[1] / -away[1]);
  };

  it('is thrown by the post on the place just inside its tip, and by nothing beyond it', () => {
    const { query, set, view, at, bulb } = study([0.4, 0.5, 0]);
    const light = { id: bulb.id, positionM: bulb.positionM };
    const tipM = tipOf(bulb.positionM);
    expect(findShadow(query, set, view, at([tipM[0] + 0.02, 0, 0]), light)?.casterId).toBe('piece:post');
    expect(findShadow(query, set, view, at([tipM[0] - 0.02, 0, 0]), light)).toBeNull();
  });

  it('takes the light along: pulled in to 0.06 m from the post, the light rises at its distance from the top', () => {
    const { query, set, view, at, bulb } = study([0.4, 0.5, 0]);
    const distanceM = distance(topM, bulb.positionM);
    const placeM = lightForShadow(query, set, view, at([-0.37, 0, 0]), { casterM: topM, distanceM });
    const towardLight = normalize(sub(topM, [-0.37, 0, 0]));
    if (!placeM) throw new Error('there is a place');
    expect(distance(placeM, addScaled(topM, towardLight, distanceM))).toBeLessThan(1e-4);
    expect(placeM[1]).toBeGreaterThan(bulb.positionM[1]);
  });
});
