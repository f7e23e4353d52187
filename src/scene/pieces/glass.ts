import type { Diagnostic } from '../../core/diagnostic.ts';
import { compose, type RigidTransform, translation } from '../../core/rigid.ts';
import type { Finish } from '../../materials/finish.ts';
import type { Medium, OpticalSurface, Volume } from '../../materials/surface.ts';
import { type Built, leftOut } from '../built.ts';
import { GLASS_LIFT_M } from '../clearances.ts';
import { fillVessel } from '../drink/fillVessel.ts';
import { layDrops } from '../garnish/condensation.ts';
import { surfacesOfGarnish } from '../garnish/garnishPart.ts';
import { frostUnderMist, stretchesOfWall, type WallStretch } from '../garnish/mist.ts';
import { placeGarnish } from '../garnish/placeGarnish.ts';
import { rimCrustParts } from '../garnish/rimCrust.ts';
import { standingOfGarnish } from '../garnish/standing.ts';
import { buildGlassBody } from '../glassware/buildGlassBody.ts';
import { buildCutPattern } from '../glassware/cutPattern.ts';
import { finishOfFrost } from '../glassware/frost.ts';
import type { GlassBody, GlassRole } from '../glassware/glassBody.ts';
import { buildHandle } from '../glassware/handle.ts';
import { buildLabel } from '../glassware/label.ts';
import { buildStopper } from '../glassware/stopper.ts';
import { iceDiagnostics } from '../ice/iceDiagnostics.ts';
import { iceSurfaces } from '../ice/iceSurfaces.ts';
import type { SolidPart } from '../parts/solidPart.ts';
import {
  CLEAR_EXTRA_PRIORITY,
  CUT_PRIORITY,
  DROPLET_PRIORITY,
  GLASS_ADDITION_PRIORITY,
  SOLID_PRIORITY,
} from '../priorities.ts';
import { type ProfilePiece, shapeFromPiece } from '../profile/index.ts';
import type { Piece } from '../records.ts';
import { pourDrink } from './pourDrink.ts';

export type GlassPiece = Extract<Piece, { kind: 'glass' }>;

export { iceVolumeId } from '../ice/iceSurfaces.ts';
export { drinkVolumeId } from './pourDrink.ts';

export const glassVolumeId = (recordId: string): string => `${recordId}:glass`;

const CLEAR: Finish = { type: 'clear', roughness: 0 };
/** Frost stays off the lip and the underside, as it does when a glass is blasted in a mask. */
const FROSTED: ReadonlySet<GlassRole> = new Set(['outer wall', 'stem', 'foot', 'foot edge']);
const WATER: Medium = { index: 1.333, absorptionPerM: [0.3, 0.06, 0.01] };
const AIR: Medium = { index: 1, absorptionPerM: [0, 0, 0] };

/**
 * A vessel with all that is in it, on it and round it. The foot stands GLASS_LIFT_M over the piece's position, as a real
 * glass stands on the high ring of its foot. Where the drink wets the glass there is one surface, with drink in front and
 * glass behind; where bodies overlap (ice in the drink, a handle sunk in the wall, a hollow cut into it) the ranks of
 * `priorities.ts` decide.
 */
export function buildGlassPiece(piece: GlassPiece, placement: RigidTransform): Built {
  const result = buildGlassBody(piece.id, piece.profile);
  if (!result.ok) return leftOut(result.error);
  const body = result.value;
  const worldFromGlass = compose(placement, translation([0, GLASS_LIFT_M, 0]));
  const standing = standingOfGarnish(body, piece.garnish);
  const filled = fillVessel(piece.id, body, piece, standing);
  const served = { body, levelYM: filled.drink?.levelYM, ice: filled.ice, standing };
  const poured = pourDrink(piece.id, piece.drink, { ...served, drink: filled.drink }, worldFromGlass);
  const outer = finishOfFrost(piece.frost ?? 0);
  const all: Built[] = [
    {
      surfaces: outsideSurfaces(piece, body, filled.drink?.levelYM, worldFromGlass),
      volumes: [glassVolume(piece)],
      diagnostics: [],
    },
    poured,
    buildAdditions(piece, body, outer, worldFromGlass),
  ];
  if (piece.ice) {
    all.push({
      ...iceSurfaces(piece.id, piece.ice, filled.ice, worldFromGlass),
      diagnostics: iceDiagnostics(piece.id, piece.ice, body, filled.ice.length, piece.drink !== undefined),
    });
  }
  for (const [index, garnish] of (piece.garnish ?? []).entries()) {
    const { parts, diagnostics } = placeGarnish(piece.id, index, garnish, served);
    const placed = parts.map((part) => ({ ...part, worldFromLocal: compose(worldFromGlass, part.worldFromLocal) }));
    all.push({ ...surfacesOfGarnish(piece.id, `garnish ${index + 1}`, placed), diagnostics });
  }
  if (piece.condensation) {
    const drops = layDrops(piece.condensation, {
      body,
      levelYM: filled.drink?.levelYM,
      label: piece.label,
      cut: piece.cut,
    });
    all.push(closedBodies(piece.id, 'drops', drops, worldFromGlass, { medium: WATER, priority: DROPLET_PRIORITY }));
  }
  return {
    surfaces: all.flatMap((built) => built.surfaces),
    volumes: all.flatMap((built) => built.volumes),
    diagnostics: all.flatMap((built) => built.diagnostics),
  };
}

const glassMedium = (piece: GlassPiece): Medium => ({
  index: piece.glassIndex,
  absorptionPerM: piece.glassAbsorptionPerM,
});

const glassVolume = (piece: GlassPiece): Volume => ({
  id: glassVolumeId(piece.id),
  recordId: piece.id,
  medium: glassMedium(piece),
  priority: SOLID_PRIORITY,
});

function outsideSurfaces(
  piece: GlassPiece,
  body: GlassBody,
  levelYM: number | undefined,
  worldFromLocal: RigidTransform,
): OpticalSurface[] {
  const { condensation } = piece;
  const frost = piece.frost ?? 0;
  const outer = finishOfFrost(frost);
  const mist = condensation?.mist ?? 0;
  const dull = finishOfFrost(frostUnderMist(frost, mist));
  return body.outside.flatMap((p: { role: GlassRole; piece: ProfilePiece }): OpticalSurface[] => {
    const stretches: readonly WallStretch[] =
      condensation && mist > 0 && p.role === 'outer wall'
        ? stretchesOfWall(p.piece, condensation, body, levelYM)
        : [{ piece: p.piece, misted: false }];
    return stretches.map(({ piece: stretch, azimuth, misted }) => ({
      recordId: piece.id,
      role: p.role,
      shape: { ...shapeFromPiece(stretch), ...(azimuth ? { azimuth } : {}) },
      worldFromLocal,
      finish: misted ? dull : FROSTED.has(p.role) ? outer : CLEAR,
      backVolume: glassVolumeId(piece.id),
    }));
  });
}

/** Clear bodies of one medium under one volume. */
function closedBodies(
  recordId: string,
  name: string,
  parts: readonly SolidPart[],
  worldFromGlass: RigidTransform,
  fill: { readonly medium: Medium; readonly priority: number; readonly finish?: Finish },
): Built {
  if (parts.length === 0) return leftOut([]);
  const id = `${recordId}:${name}`;
  return {
    surfaces: parts.map((part) => ({
      recordId,
      ...part,
      worldFromLocal: compose(worldFromGlass, part.worldFromLocal),
      finish: fill.finish ?? CLEAR,
      backVolume: id,
    })),
    volumes: [{ id, recordId, medium: fill.medium, priority: fill.priority }],
    diagnostics: [],
  };
}

/** Handle, cut pattern, label, stopper and crust. */
function buildAdditions(piece: GlassPiece, body: GlassBody, outer: Finish, worldFromGlass: RigidTransform): Built {
  const surfaces: OpticalSurface[] = [];
  const volumes: Volume[] = [];
  const diagnostics: Diagnostic[] = [];
  const take = (built: Built): void => {
    surfaces.push(...built.surfaces);
    volumes.push(...built.volumes);
    diagnostics.push(...built.diagnostics);
  };
  const sheet = (parts: readonly SolidPart[], finish: Finish): void => {
    surfaces.push(
      ...parts.map((part) => ({
        recordId: piece.id,
        ...part,
        worldFromLocal: compose(worldFromGlass, part.worldFromLocal),
        finish,
      })),
    );
  };
  const here: RigidTransform = translation([0, 0, 0]);
  const glass = { medium: glassMedium(piece), priority: GLASS_ADDITION_PRIORITY, finish: outer };
  if (piece.profile.shape === 'mug') {
    const handle = buildHandle(piece.id, body, piece.profile, here);
    diagnostics.push(...handle.diagnostics);
    take(closedBodies(piece.id, 'handle', handle.parts, worldFromGlass, glass));
  }
  if (piece.cut) {
    const cut = buildCutPattern(piece.id, body, piece.cut, here);
    diagnostics.push(...cut.diagnostics);
    const fill = cut.adds ? glass : { medium: AIR, priority: CUT_PRIORITY, finish: outer };
    take(closedBodies(piece.id, 'cut', cut.parts, worldFromGlass, fill));
  }
  if (piece.label) {
    const label = buildLabel(piece.id, body, piece.label, here);
    diagnostics.push(...label.diagnostics);
    sheet(label.parts, piece.label.finish);
  }
  if (piece.stopper) {
    const stopper = buildStopper(piece.id, body, piece.stopper, here);
    diagnostics.push(...stopper.diagnostics);
    if (stopper.finish) sheet(stopper.parts, stopper.finish);
    else {
      const clear = { medium: glassMedium(piece), priority: CLEAR_EXTRA_PRIORITY };
      take(closedBodies(piece.id, 'stopper', stopper.parts, worldFromGlass, clear));
    }
  }
  if (piece.rimCrust) {
    for (const { finish, ...part } of rimCrustParts(body, piece.rimCrust)) sheet([part], finish);
  }
  return { surfaces, volumes, diagnostics };
}
