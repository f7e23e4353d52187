import type { Camera } from '../../camera/records.ts';
import type { Fixture } from '../../fixtures/records.ts';
import type { FrameScene } from '../../scene/setModel.ts';

/**
 * Do two scenes build the same surfaces? Switch, dimmer and colour of a fixture, and shutter, sensitivity and white
 * balance of the camera, act on the finished film and move nothing on the set. Unchanged records keep their identity,
 * so nearly everything is settled without looking inside.
 */
export function sameSet(a: FrameScene, b: FrameScene): boolean {
  return (
    sameItems(a.pieces, b.pieces) &&
    sameItems(a.grip, b.grip) &&
    a.turntable === b.turntable &&
    a.turntableAngleDeg === b.turntableAngleDeg &&
    a.subject === b.subject &&
    sameCamera(a.camera, b.camera) &&
    a.fixtures.length === b.fixtures.length &&
    a.fixtures.every((fixture, i) => sameFixture(fixture, b.fixtures[i]))
  );
}

const sameItems = <T>(a: readonly T[], b: readonly T[]): boolean =>
  a.length === b.length && a.every((item, i) => item === b[i]);

function sameFixture(a: Fixture, b: Fixture): boolean {
  if (a === b) return true;
  const { on, dimStops, cctK, duv } = b;
  return JSON.stringify({ ...a, on, dimStops, cctK, duv }) === JSON.stringify(b);
}

function sameCamera(a: Camera, b: Camera): boolean {
  if (a === b) return true;
  const { iso, shutterS, whiteBalanceK } = b;
  return JSON.stringify({ ...a, iso, shutterS, whiteBalanceK }) === JSON.stringify(b);
}
