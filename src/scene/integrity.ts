import type { Diagnostic } from '../core/diagnostic.ts';
import { applyToPoint, inversePoint } from '../core/rigid.ts';
import type { Vec3 } from '../core/vec3.ts';
import { fixtureFrame } from '../fixtures/placement.ts';
import type { Fixture, GripItem } from '../fixtures/records.ts';
import { CAMERA_ID } from './matteBox.ts';
import { cannotMake, madeWithin } from './problems.ts';
import type { Piece } from './records.ts';
import type { FrameScene } from './setModel.ts';
import { type Solid, solidOfPiece, solidOfTurntable } from './solids.ts';
import { placePiece } from './turntable.ts';

/** Deeper than this counts as standing in one another: over all the hair gaps between pieces that lie together. */
const OVERLAP_M = 0.0003;
/** A foot this far over what is under it counts as standing on it. */
const CONTACT_M = 0.001;

/**
 * Things that can't be on a real set: pieces inside one another, a lens or a light inside a piece, a sheet through a
 * glass, a glass in the air. Judged by points over each surface, so a small overlap in the middle of a large flat face
 * may be missed; the picture shows it.
 */
export function checkSetIntegrity(scene: FrameScene): Diagnostic[] {
  const solids = scene.pieces.flatMap((piece) => {
    const solid = solidOfPiece(piece, placePiece(piece, scene.turntable, scene.turntableAngleDeg));
    return solid ? [solid] : [];
  });
  if (scene.turntable) solids.push(solidOfTurntable(scene.turntable));
  return [
    ...overlapDiagnostics(solids),
    ...scene.pieces.flatMap((piece) => standingDiagnostics(piece, scene, solids)),
    ...lensDiagnostics(scene, solids),
    ...scene.fixtures.flatMap((fixture) => lightDiagnostics(fixture, solids)),
    ...scene.grip.flatMap((item) => gripDiagnostics(item, solids)),
  ];
}

function overlapDiagnostics(solids: readonly Solid[]): Diagnostic[] {
  const found: Diagnostic[] = [];
  for (const [i, a] of solids.entries()) {
    for (const b of solids.slice(i + 1)) {
      const overlaps =
        a.probesM.some((p) => b.contains(p, OVERLAP_M)) || b.probesM.some((p) => a.contains(p, OVERLAP_M));
      if (!overlaps) continue;
      found.push(
        madeWithin(
          a.recordId,
          'pieces-overlap',
          'positionM',
          b.recordId,
          `${a.name} stands in ${b.name}: move one of them by positionM.`,
        ),
      );
    }
  }
  return found;
}

function standingDiagnostics(piece: Piece, scene: FrameScene, solids: readonly Solid[]): Diagnostic[] {
  if (piece.kind !== 'glass') return [];
  const foot = placePiece(piece, scene.turntable, scene.turntableAngleDeg).translationM;
  const stands = [0.0003, CONTACT_M].some((downM) => {
    const under: Vec3 = [foot[0], foot[1] - downM, foot[2]];
    return (
      solids.some((solid) => solid.recordId !== piece.id && solid.contains(under, 0)) ||
      scene.pieces.some((other) => other.kind === 'sweep' && liesOnSweep(other, scene, foot))
    );
  });
  if (stands) return [];
  return [
    madeWithin(
      piece.id,
      'stands-on-nothing',
      'positionM',
      piece.positionM,
      `Nothing lies right under ${piece.name}: set the height in positionM to the top of what it stands on.`,
    ),
  ];
}

function liesOnSweep(sweep: Extract<Piece, { kind: 'sweep' }>, scene: FrameScene, pointM: Vec3): boolean {
  const [x, y, z] = inversePoint(placePiece(sweep, scene.turntable, scene.turntableAngleDeg), pointM);
  return Math.abs(x) <= sweep.widthM / 2 && z <= 0 && z >= -sweep.floorDepthM && Math.abs(y) <= CONTACT_M;
}

function lensDiagnostics({ camera, fixtures }: FrameScene, solids: readonly Solid[]): Diagnostic[] {
  const inside = solids.find((solid) => solid.contains(camera.positionM, 0));
  if (inside) {
    return [
      cannotMake(
        CAMERA_ID,
        'lens-inside-piece',
        'camera.positionM',
        camera.positionM,
        `The lens is inside ${inside.name}: move camera.positionM out of it.`,
      ),
    ];
  }
  const light = fixtures.find((fixture) => isInsideHousing(fixture, camera.positionM));
  if (!light) return [];
  return [
    cannotMake(
      CAMERA_ID,
      'lens-inside-fixture',
      'camera.positionM',
      camera.positionM,
      `The lens is inside ${light.name}: move camera.positionM or the fixture.`,
    ),
  ];
}

function isInsideHousing(fixture: Fixture, pointM: Vec3): boolean {
  const [x, y, z] = inversePoint(fixtureFrame(fixture), pointM);
  switch (fixture.kind) {
    case 'panel':
    case 'softbox':
      return Math.abs(x) < fixture.widthM / 2 && Math.abs(y) < fixture.heightM / 2 && z < 0 && z > -fixture.depthM;
    case 'spot':
      return Math.hypot(x, y) < fixture.lensDiameterM / 2 && z < 0 && z > -fixture.housingLengthM;
    case 'bulb':
      return Math.hypot(x, y, z) < fixture.diameterM / 2;
    case 'lantern':
      return Math.hypot(x, z) < fixture.diameterM / 2 && Math.abs(y) < fixture.heightM / 2;
    case 'measured': {
      const { opening, depthM } = fixture;
      if (opening.shape === 'sphere') return Math.hypot(x, y, z) < opening.diameterM / 2;
      const isBehind =
        opening.shape === 'disc'
          ? Math.hypot(x, y) < opening.diameterM / 2
          : Math.abs(x) < opening.widthM / 2 && Math.abs(y) < opening.heightM / 2;
      return isBehind && z < 0 && z > -depthM;
    }
    case 'tube':
      return Math.abs(x) < fixture.lengthM / 2 && Math.hypot(y, z) < fixture.diameterM / 2;
  }
}

function lightDiagnostics(fixture: Fixture, solids: readonly Solid[]): Diagnostic[] {
  const points = facePoints(fixture);
  const inside = solids.find((solid) => points.some((p) => solid.contains(p, OVERLAP_M)));
  if (!inside) return [];
  return [
    madeWithin(
      fixture.id,
      'fixture-inside-piece',
      'positionM',
      fixture.positionM,
      `${fixture.name} stands in ${inside.name}: move one of them by positionM.`,
    ),
  ];
}

/** Middle and outermost points of what shines. */
function facePoints(fixture: Fixture): Vec3[] {
  const half = ((): readonly [number, number] => {
    switch (fixture.kind) {
      case 'panel':
      case 'softbox':
        return [fixture.widthM / 2, fixture.heightM / 2];
      case 'spot':
        return [fixture.lensDiameterM / 2, fixture.lensDiameterM / 2];
      case 'bulb':
        return [fixture.diameterM / 2, fixture.diameterM / 2];
      case 'lantern':
        return [fixture.diameterM / 2, fixture.heightM / 2];
      case 'measured': {
        const { opening } = fixture;
        return opening.shape === 'rectangle'
          ? [opening.widthM / 2, opening.heightM / 2]
          : [opening.diameterM / 2, opening.diameterM / 2];
      }
      case 'tube':
        return [fixture.lengthM / 2, fixture.diameterM / 2];
    }
  })();
  return gridPoints(fixture, half[0], half[1], 1);
}

function gripDiagnostics(item: GripItem, solids: readonly Solid[]): Diagnostic[] {
  const points = gridPoints(item, item.widthM / 2, item.heightM / 2, 8);
  const inside = solids.find((solid) => points.some((p) => solid.contains(p, OVERLAP_M)));
  if (!inside) return [];
  return [
    madeWithin(
      item.id,
      'grip-inside-piece',
      'positionM',
      item.positionM,
      `${item.name} cuts into ${inside.name}: move one of them by positionM.`,
    ),
  ];
}

/** Points of a face of half sizes x, y about its middle, (2 n + 1) each way. */
function gridPoints(record: Fixture | GripItem, x: number, y: number, n: number): Vec3[] {
  const frame = fixtureFrame(record);
  const points: Vec3[] = [];
  for (let i = -n; i <= n; i++) {
    for (let j = -n; j <= n; j++) points.push(applyToPoint(frame, [(x * i) / n, (y * j) / n, 0]));
  }
  return points;
}
