import type { Diagnostic } from '../../core/diagnostic.ts';
import { compose, type RigidTransform, translation } from '../../core/rigid.ts';
import type { Finish } from '../../materials/finish.ts';
import { refractiveIndex } from '../../materials/indexTables.ts';
import type { OpticalSurface, Volume } from '../../materials/surface.ts';
import { type Built, leftOut } from '../built.ts';
import { GLASS_LIFT_M } from '../clearances.ts';
import { buildGlassBody } from '../glassware/buildGlassBody.ts';
import { type DrinkBody, fillGlassBody } from '../glassware/drinkBody.ts';
import type { GlassBody } from '../glassware/glassBody.ts';
import { packIce } from '../ice/packIce.ts';
import { cannotMake, inMm, madeWithin } from '../problems.ts';
import { type ProfilePiece, shapeFromPiece } from '../profile/index.ts';
import type { Ice, Piece } from '../records.ts';
import { buildRoundedBox } from '../roundedBox.ts';
import { SOLID_PRIORITY } from './solid.ts';

export type GlassPiece = Extract<Piece, { kind: 'glass' }>;

const DRINK_PRIORITY = 10;
const ICE_PRIORITY = 30;
export const ICE_INDEX = refractiveIndex('ice');
/** Clear ice made in one direction; per metre in R, G, B. Invented: blue-green of deep ice with a trace of cloud. */
export const ICE_ABSORPTION_PER_M = [0.1, 0.05, 0.03] as const;

const CLEAR: Finish = { type: 'clear', roughness: 0 };

/**
 * A vessel with its drink and ice. The foot stands GLASS_LIFT_M over the piece's position, as a real glass stands on
 * the high ring of its foot. Where the drink wets the glass there is one surface, with drink in front and glass behind;
 * ice overlaps the drink and wins by priority.
 */
export function buildGlassPiece(piece: GlassPiece, placement: RigidTransform): Built {
  const result = buildGlassBody(piece.id, piece.profile);
  if (!result.ok) return leftOut(result.error);
  const body = result.value;
  const worldFromLocal = compose(placement, translation([0, GLASS_LIFT_M, 0]));
  const drink = piece.drink ? fillGlassBody(piece.id, body, piece.drink) : undefined;
  const ice = piece.ice ? buildIce(piece.id, piece.ice, body, drink, worldFromLocal) : leftOut([]);
  const diagnostics: Diagnostic[] = [...(drink?.diagnostics ?? []), ...ice.diagnostics];
  return {
    surfaces: [...buildWalls(piece.id, body, drink, worldFromLocal), ...ice.surfaces],
    volumes: [...glassVolumes(piece), ...ice.volumes],
    diagnostics,
  };
}

export const glassVolumeId = (recordId: string): string => `${recordId}:glass`;
export const drinkVolumeId = (recordId: string): string => `${recordId}:drink`;
export const iceVolumeId = (recordId: string): string => `${recordId}:ice`;

function glassVolumes(piece: GlassPiece): Volume[] {
  const volumes: Volume[] = [
    {
      id: glassVolumeId(piece.id),
      recordId: piece.id,
      medium: { index: piece.glassIndex, absorptionPerM: piece.glassAbsorptionPerM },
      priority: SOLID_PRIORITY,
    },
  ];
  if (piece.drink) {
    volumes.push({
      id: drinkVolumeId(piece.id),
      recordId: piece.id,
      medium: { index: piece.drink.index, absorptionPerM: piece.drink.absorptionPerM },
      priority: DRINK_PRIORITY,
    });
  }
  return volumes;
}

function buildWalls(
  recordId: string,
  body: GlassBody,
  drink: DrinkBody | undefined,
  worldFromLocal: RigidTransform,
): OpticalSurface[] {
  const glass = glassVolumeId(recordId);
  const liquid = drinkVolumeId(recordId);
  const turned = (role: string, piece: ProfilePiece, sides: { frontVolume?: string; backVolume: string }) => ({
    recordId,
    role,
    shape: shapeFromPiece(piece),
    worldFromLocal,
    finish: CLEAR,
    ...sides,
  });
  return [
    ...body.outside.map((p) => turned(p.role, p.piece, { backVolume: glass })),
    ...(drink?.dry ?? body.inside).map((p) => turned(p.role, p.piece, { backVolume: glass })),
    ...(drink?.wet ?? []).map((p) => turned(p.role, p.piece, { frontVolume: liquid, backVolume: glass })),
    ...(drink?.top ?? []).map((p) => turned(p.role, p.piece, { backVolume: liquid })),
  ];
}

function buildIce(
  recordId: string,
  ice: Ice,
  body: GlassBody,
  drink: DrinkBody | undefined,
  worldFromLocal: RigidTransform,
): Built {
  if (ice.bevelM > ice.edgeM / 2) {
    return leftOut([
      cannotMake(
        recordId,
        'ice-bevel-too-large',
        'ice.bevelM',
        ice.bevelM,
        'ice.bevelM is more than half of ice.edgeM: keep it at half or less. The ice is left out.',
      ),
    ]);
  }
  if (ice.count === 0) return leftOut([]);
  const cubes = packIce(body, ice, drink?.levelYM);
  const id = iceVolumeId(recordId);
  const half = ice.edgeM / 2;
  const surfaces = cubes.flatMap((cube, n) =>
    buildRoundedBox([half, half, half], ice.bevelM, compose(worldFromLocal, cube)).map(
      (side): OpticalSurface => ({
        recordId,
        ...side,
        role: `ice ${n + 1} ${side.role}`,
        finish: CLEAR,
        backVolume: id,
      }),
    ),
  );
  const diagnostics: Diagnostic[] = [];
  if (cubes.length < ice.count) {
    diagnostics.push(
      madeWithin(
        recordId,
        'ice-does-not-fit',
        'ice.count',
        ice.count,
        `Only ${cubes.length} of ${ice.count} ice cubes fit: lower ice.count to ${cubes.length} or make ice.edgeM smaller.`,
      ),
    );
  }
  const mouthM = 2 * (body.inside[0]?.piece.from.rM ?? 0);
  if (body.convexUpToYM < body.rimYM && ice.edgeM > mouthM) {
    diagnostics.push(
      madeWithin(
        recordId,
        'ice-wider-than-neck',
        'ice.edgeM',
        ice.edgeM,
        `ice.edgeM is more than the neck, which is ${inMm(mouthM)} wide inside: such cubes can't get into the bottle. Make them smaller.`,
      ),
    );
  }
  return {
    surfaces,
    volumes:
      cubes.length > 0
        ? [
            {
              id,
              recordId,
              medium: { index: ICE_INDEX, absorptionPerM: ICE_ABSORPTION_PER_M },
              priority: ICE_PRIORITY,
            },
          ]
        : [],
    diagnostics,
  };
}
