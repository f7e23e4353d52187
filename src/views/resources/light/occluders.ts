import { applyToDirection, applyToPoint, type RigidTransform } from '../../../core/rigid.ts';
import type { QuadShape } from '../../../core/shape.ts';
import { cross, dot, length, sub, type Vec3 } from '../../../core/vec3.ts';
import type { OpticalSurface } from '../../../materials/surface.ts';
import { boxOf } from '../../../scene/pieces/box.ts';
import type { Piece } from '../../../scene/records.ts';
import type { FrameScene, SetModel } from '../../../scene/setModel.ts';
import { placePiece } from '../../../scene/turntable.ts';
import { dressingOccluders } from './dressingOccluders.ts';
import { fixtureOccluders, leafSheets } from './fixtureOccluders.ts';
import type { BoxOccluder, Occluder, SheetOccluder } from './occluder.ts';

/**
 * Share of light that passes straight through a glass: losses at its surfaces, and what is bent aside. An estimate;
 * where a glass gathers light again is left to the traced picture.
 */
const THROUGH_GLASS = 0.5;

/** Flat parts of a fixture that stand before its face. */
const SHAPES_LIGHT = /^(barn door (top|bottom|left|right)|gobo)/;

/** All that may stand in the way of light on this set. */
export function occludersOfSet(scene: FrameScene, set: SetModel): Occluder[] {
  const fixtureIds = new Set(scene.fixtures.map(({ id }) => id));
  const shaping = set.surfaces
    .filter((s) => fixtureIds.has(s.recordId) && SHAPES_LIGHT.test(s.role))
    .flatMap((surface) => [...sheetOf(surface), ...leafSheets(surface)]);
  const gripIds = new Set(scene.grip.map(({ id }) => id));
  const largest = new Map<string, OpticalSurface>();
  for (const surface of set.surfaces) {
    if (!gripIds.has(surface.recordId) || surface.shape.type !== 'quad') continue;
    const known = largest.get(surface.recordId);
    if (!known || quadAreaM2(surface) > quadAreaM2(known)) largest.set(surface.recordId, surface);
  }
  return [
    ...shaping,
    ...scene.fixtures.flatMap(fixtureOccluders),
    ...[...largest.values()].flatMap(sheetOf),
    ...scene.pieces.flatMap((piece) =>
      pieceOccluders(piece, placePiece(piece, scene.turntable, scene.turntableAngleDeg), set),
    ),
  ];
}

/** Where light can matter: a ball round the subject that holds what stands on the table. */
export interface LitRegion {
  readonly centreM: Vec3;
  readonly radiusM: number;
}

/** Can an occluder shade any of the region from a light? May say yes too often, never no in error by much. */
export function mayShade(lightCentreM: Vec3, lightRadiusM: number, occluder: Occluder, region: LitRegion): boolean {
  if (occluder.front && dot(sub(lightCentreM, occluder.front.pointM), occluder.front.normal) > 0) return false;
  const { centreM, radiusM } = boundsOf(occluder);
  const axis = sub(region.centreM, lightCentreM);
  const lengthM = length(axis);
  if (lengthM < region.radiusM) return true;
  const offset = sub(centreM, lightCentreM);
  const share = Math.min(1, Math.max(0, dot(offset, axis) / (lengthM * lengthM)));
  const beside = length(sub(offset, [axis[0] * share, axis[1] * share, axis[2] * share]));
  return beside <= radiusM + share * region.radiusM + (1 - share) * lightRadiusM;
}

function boundsOf(occluder: Occluder): { readonly centreM: Vec3; readonly radiusM: number } {
  switch (occluder.kind) {
    case 'sheet': {
      const { originM: o, edgeUM: u, edgeVM: v } = occluder;
      const centreM: Vec3 = [o[0] + (u[0] + v[0]) / 2, o[1] + (u[1] + v[1]) / 2, o[2] + (u[2] + v[2]) / 2];
      return { centreM, radiusM: Math.hypot(length(u), length(v)) / 2 };
    }
    case 'cylinder': {
      const { footM, radiusM, heightM } = occluder;
      return {
        centreM: [footM[0], footM[1] + heightM / 2, footM[2]],
        radiusM: Math.hypot(radiusM, heightM / 2),
      };
    }
    case 'box':
      return { centreM: occluder.centreM, radiusM: length(occluder.halfM) };
    case 'shell':
      return { centreM: occluder.footM, radiusM: Math.hypot(occluder.radiusM, occluder.heightM) };
    case 'aperture':
      // All that leaves the light goes by its opening.
      return { centreM: occluder.centreM, radiusM: Number.POSITIVE_INFINITY };
  }
}

function pieceOccluders(piece: Piece, placement: RigidTransform, set: SetModel): Occluder[] {
  const at = (p: Vec3): Vec3 => applyToPoint(placement, p);
  const common = { recordId: piece.id, transmittance: 0 };
  switch (piece.kind) {
    case 'glass': {
      const bounds = set.boundsByRecord.get(piece.id);
      if (!bounds) return [];
      // Of a stemmed glass the bowl stands in the way; stem and foot are slight.
      const heightM = bounds.maxM[1] - bounds.minM[1];
      const bowlM = 'bowlHeightM' in piece.profile ? piece.profile.bowlHeightM : heightM;
      return [
        {
          ...common,
          kind: 'cylinder',
          transmittance: THROUGH_GLASS,
          footM: at([0, heightM - bowlM, 0]),
          radiusM: (bounds.maxM[0] - bounds.minM[0]) / 2,
          heightM: bowlM,
        },
      ];
    }
    case 'plinthCylinder':
      return [
        { ...common, kind: 'cylinder', footM: at([0, 0, 0]), radiusM: piece.diameterM / 2, heightM: piece.heightM },
      ];
    case 'tabletop':
    case 'sheet':
    case 'plinthBox':
    case 'wall': {
      const { widthM, depthM, underYM, topYM, centreZM } = boxOf(piece);
      const box: BoxOccluder = {
        ...common,
        kind: 'box',
        centreM: at([0, (topYM + underYM) / 2, centreZM]),
        halfM: [widthM / 2, (topYM - underYM) / 2, depthM / 2],
        across: applyToDirection(placement, [1, 0, 0]),
      };
      if (piece.kind === 'plinthBox') return [box];
      const normal: Vec3 = piece.kind === 'wall' ? applyToDirection(placement, [0, 0, 1]) : [0, 1, 0];
      return [{ ...box, front: { pointM: at([0, topYM, 0]), normal } }];
    }
    case 'sweep':
      return set.surfaces
        .filter(({ recordId, shape }) => recordId === piece.id && shape.type === 'quad')
        .flatMap((surface) =>
          sheetOf(surface).map((sheet) => ({
            ...sheet,
            front: { pointM: sheet.originM, normal: cross(sheet.edgeUM, sheet.edgeVM) },
          })),
        );
    case 'garnish':
      // Fruit, leaves and straws are slight.
      return [];
    default:
      return dressingOccluders(piece, placement, set);
  }
}

type QuadSurface = OpticalSurface & { readonly shape: QuadShape };
const isQuad = (surface: OpticalSurface): surface is QuadSurface => surface.shape.type === 'quad';

function sheetOf(surface: OpticalSurface): SheetOccluder[] {
  if (!isQuad(surface)) return [];
  const { shape, worldFromLocal, recordId } = surface;
  return [
    {
      kind: 'sheet',
      recordId,
      transmittance: 0,
      originM: applyToPoint(worldFromLocal, shape.originM),
      edgeUM: applyToDirection(worldFromLocal, shape.edgeUM),
      edgeVM: applyToDirection(worldFromLocal, shape.edgeVM),
    },
  ];
}

const quadAreaM2 = (surface: OpticalSurface): number =>
  isQuad(surface) ? length(cross(surface.shape.edgeUM, surface.shape.edgeVM)) : 0;
