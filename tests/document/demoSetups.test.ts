import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { fromAim } from '../../src/core/rigid.ts';
import { add, addScaled, cross, dot, normalize, scale, sub, type Vec3 } from '../../src/core/vec3.ts';
import { parseSetup, serializeSetup } from '../../src/document/codec.ts';
import { resolveFrame } from '../../src/document/resolveFrame.ts';
import type { Setup } from '../../src/document/setup.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';

const folder = new URL('../../assets/setups/', import.meta.url);
const files = readdirSync(folder).filter((name) => name.endsWith('.json'));

function openDemo(name: string): Setup {
  const opened = parseSetup(readFileSync(new URL(name, folder), 'utf8'));
  if (!opened.ok) throw new Error(opened.error.message);
  return opened.value.setup;
}

describe('demo setups', () => {
  it('come in pairs, each right one with a wrong one of the same frames', () => {
    const right = files.filter((name) => !name.endsWith('-wrong.json'));
    expect(right.length).toBeGreaterThan(0);
    for (const name of right) {
      const wrong = openDemo(name.replace('.json', '-wrong.json'));
      expect(wrong.frames.map((frame) => frame.name)).toEqual(openDemo(name).frames.map((frame) => frame.name));
    }
  });

  it.each(files)('%s opens, resolves every frame, and is written just as the program writes it', (name) => {
    const setup = openDemo(name);
    expect(serializeSetup(setup)).toBe(readFileSync(new URL(name, folder), 'utf8'));
    for (const frame of setup.frames) {
      const scene = resolveFrame(setup, frame.id);
      expect(scene.ok && scene.value.pieces.some((piece) => piece.id === setup.subject.pieceId)).toBe(true);
    }
  });
});

/** Where a point falls in the frame of a pinhole: -1 to 1 across and up; null behind the lens. */
function framePlace({ camera }: FrameScene, point: Vec3): readonly [number, number] | null {
  const forward = normalize(sub(camera.aimM, camera.positionM));
  const right = normalize(cross(forward, [0, 1, 0]));
  const toPoint = sub(point, camera.positionM);
  const depth = dot(toPoint, forward);
  if (depth <= 0) return null;
  const halfWidth = camera.sensorWidthMm / 2 / camera.focalLengthMm;
  const halfHeight = camera.sensorHeightMm / 2 / camera.focalLengthMm;
  return [dot(toPoint, right) / depth / halfWidth, dot(toPoint, cross(right, forward)) / depth / halfHeight];
}

const isInFrame = (place: readonly [number, number] | null): boolean =>
  place !== null && Math.abs(place[0]) <= 1 && Math.abs(place[1]) <= 1;

/** 21 x 21 points over the face of the only panel. */
function panelPoints(scene: FrameScene): Vec3[] {
  const panel = scene.fixtures[0];
  if (panel.kind !== 'panel') throw new Error('the demo is lit by one panel');
  const { rotation } = fromAim(panel.positionM, panel.aimM);
  const across = scale([rotation[0], rotation[3], rotation[6]], panel.widthM);
  const up = scale([rotation[1], rotation[4], rotation[7]], panel.heightM);
  const steps = Array.from({ length: 21 }, (_, i) => i / 20 - 0.5);
  return steps.flatMap((a) => steps.map((b) => addScaled(addScaled(panel.positionM, across, a), up, b)));
}

/** Mirror image in the gloss base, which lies at y = 0: a point at height y shows as far under it. */
const mirrored = (point: Vec3): Vec3 => [point[0], -point[1], point[2]];

const sceneOf = (name: string, frameId: string): FrameScene => {
  const scene = resolveFrame(openDemo(name), frameId);
  if (!scene.ok) throw new Error(scene.error[0].message);
  return scene.value;
};

/**
 * The family of angles in a plane mirror: what the base shows is what a lens at its mirror image would see (Hunter,
 * Biver and Fuqua, "Light: Science and Magic", chapter 3, from memory; the geometry is elementary).
 */
describe.each(['frame:wide', 'frame:close-up'])('tonic on gloss black, %s', (frameId) => {
  const right = sceneOf('tonic-on-gloss-black.json', frameId);
  const wrong = sceneOf('tonic-on-gloss-black-wrong.json', frameId);

  it('as it should be: neither the panel nor its image in the base is in the frame', () => {
    const points = panelPoints(right);
    expect(points.filter((point) => isInFrame(framePlace(right, point)))).toEqual([]);
    expect(points.filter((point) => isInFrame(framePlace(right, mirrored(point))))).toEqual([]);
  });

  it('as it should be: the flag stands in every line from the panel to the rim of the front element, out of frame', () => {
    const flag = right.grip.find((item) => item.kind === 'flag');
    if (!flag) throw new Error('no flag');
    // The flag stands square to z, so a line meets its plane where z does.
    expect(flag.aimM.slice(0, 2)).toEqual(flag.positionM.slice(0, 2));
    const radiusM = right.camera.frontElementDiameterM / 2;
    const rim = Array.from({ length: 12 }, (_, i): Vec3 => {
      const angle = (i * Math.PI) / 6;
      return add(right.camera.positionM, [radiusM * Math.cos(angle), radiusM * Math.sin(angle), 0]);
    });
    for (const point of panelPoints(right)) {
      for (const end of rim) {
        const share = (flag.positionM[2] - point[2]) / (end[2] - point[2]);
        const hit = addScaled(point, sub(end, point), share);
        expect(Math.abs(hit[0] - flag.positionM[0])).toBeLessThan(flag.widthM / 2);
        expect(Math.abs(hit[1] - flag.positionM[1])).toBeLessThan(flag.heightM / 2);
      }
    }
    for (const x of [-0.5, 0, 0.5]) {
      const edge: Vec3 = add(flag.positionM, [x * flag.widthM, -flag.heightM / 2, 0]);
      expect(isInFrame(framePlace(right, edge))).toBe(false);
      expect(isInFrame(framePlace(right, mirrored(edge)))).toBe(false);
    }
  });

  it('gone wrong: the panel is out of the frame but its image is in it, and no flag stands before the lens', () => {
    const points = panelPoints(wrong);
    expect(points.filter((point) => isInFrame(framePlace(wrong, point)))).toEqual([]);
    const shown = points.filter((point) => isInFrame(framePlace(wrong, mirrored(point))));
    expect(shown.length).toBeGreaterThan(points.length / 5);
    expect(wrong.grip.some((item) => item.kind === 'flag')).toBe(false);
  });

  it('has the camera 0.9 to 1.4 m away and 0.2 to 0.35 m high, looking slightly down', () => {
    const [, heightM, distanceM] = right.camera.positionM;
    expect(distanceM).toBeGreaterThan(0.9);
    expect(distanceM).toBeLessThan(1.4);
    expect(heightM).toBeGreaterThanOrEqual(0.2);
    expect(heightM).toBeLessThanOrEqual(0.35);
    expect(right.camera.aimM[1]).toBeLessThan(heightM);
  });
});
