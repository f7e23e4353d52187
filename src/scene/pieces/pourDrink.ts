import { compose, type RigidTransform } from '../../core/rigid.ts';
import type { Finish } from '../../materials/finish.ts';
import type { Medium, OpticalSurface, Volume } from '../../materials/surface.ts';
import type { Built } from '../built.ts';
import { blendLayers } from '../drink/blendLayers.ts';
import { bubblePlacement, layBubbles } from '../drink/bubbles.ts';
import { foamFinish, foamMedium, layFoam } from '../drink/foam.ts';
import { layerDrink } from '../drink/layers.ts';
import type { DrinkBody } from '../glassware/drinkBody.ts';
import type { GlassBody, GlassPart } from '../glassware/glassBody.ts';
import type { PackedIce } from '../ice/packIce.ts';
import type { PlacedBox } from '../ice/roundedBoxGap.ts';
import { ballShape } from '../parts/rod.ts';
import { BUBBLE_PRIORITY, DRINK_PRIORITY } from '../priorities.ts';
import { type ProfilePiece, shapeFromPiece } from '../profile/index.ts';
import type { Drink, DrinkLayer } from '../records.ts';

export const drinkVolumeId = (recordId: string): string => `${recordId}:drink`;
/** Layers over the drink, and the bands of a gradient, count from 2. */
export const layerVolumeId = (recordId: string, layer: number): string => `${recordId}:drink-${layer}`;
export const foamVolumeId = (recordId: string): string => `${recordId}:foam`;
export const bubbleVolumeId = (recordId: string): string => `${recordId}:bubbles`;

const CLEAR: Finish = { type: 'clear', roughness: 0 };

interface Inside {
  readonly body: GlassBody;
  readonly drink: DrinkBody | undefined;
  readonly ice: readonly PackedIce[];
  readonly standing: readonly PlacedBox[];
}

const mediumOf = (drink: Drink | DrinkLayer): Medium => ({
  index: drink.index,
  absorptionPerM: drink.absorptionPerM,
  ...(drink.scatteringPerM ? { scatteringPerM: drink.scatteringPerM } : {}),
  ...(drink.anisotropy === undefined ? {} : { anisotropy: drink.anisotropy }),
});

/**
 * The whole inside of a vessel: dry glass, glass wetted by each layer of drink, the surfaces between layers, the head or
 * the open top, and bubbles.
 */
export function pourDrink(
  recordId: string,
  record: Drink | undefined,
  inside: Inside,
  worldFromGlass: RigidTransform,
): Built {
  const glass = `${recordId}:glass`;
  const surface = (
    role: string,
    piece: ProfilePiece,
    sides: { frontVolume?: string; backVolume?: string },
    finish: Finish = CLEAR,
  ): OpticalSurface => ({
    recordId,
    role,
    shape: shapeFromPiece(piece),
    worldFromLocal: worldFromGlass,
    finish,
    ...sides,
  });
  const walls = (parts: readonly GlassPart[], frontVolume?: string, finish?: Finish): OpticalSurface[] =>
    parts.map((p) => surface(p.role, p.piece, { ...(frontVolume ? { frontVolume } : {}), backVolume: glass }, finish));
  const { drink } = inside;
  if (!record || !drink) return { surfaces: walls(inside.body.inside), volumes: [], diagnostics: [] };

  const volumes: Volume[] = [];
  const addVolume = (id: string, medium: Medium, priority: number): void => {
    volumes.push({ id, recordId, medium, priority });
  };
  const layers = blendLayers(
    mediumOf(record),
    (record.layers ?? []).map((layer) => ({ medium: mediumOf(layer), share: layer.share, blend: layer.blend ?? 0 })),
  );
  const layered = layerDrink(recordId, inside.body, drink, layers);
  const liquids = layered.bands.map((_, k) => (k === 0 ? drinkVolumeId(recordId) : layerVolumeId(recordId, k + 1)));
  liquids.forEach((id, k) => {
    addVolume(id, k === 0 ? mediumOf(record) : layers[k - 1].medium, DRINK_PRIORITY);
  });
  const foam = record.foam ? layFoam(recordId, drink, record.foam) : undefined;
  const foamLook = record.foam ? foamFinish(record.foam) : CLEAR;
  const foamId = foam && record.foam?.look !== 'matte' ? foamVolumeId(recordId) : undefined;
  if (foamId && record.foam) addVolume(foamId, foamMedium(record.foam), DRINK_PRIORITY);

  const topLiquid = liquids[liquids.length - 1];
  const surfaces: OpticalSurface[] = [
    ...walls(foam?.dry ?? drink.dry),
    ...(foam ? walls(foam.touched, foamId, foamLook) : []),
    ...[...layered.bands].reverse().flatMap((band, k) => walls(band.wet, liquids[liquids.length - 1 - k])),
    ...drink.top.map((p) =>
      surface(
        p.role,
        p.piece,
        { ...(foamId ? { frontVolume: foamId } : {}), backVolume: topLiquid },
        foam ? foamLook : CLEAR,
      ),
    ),
    ...layered.interfaces.map((piece, k) =>
      surface('liquid layer', piece, { frontVolume: liquids[k + 1], backVolume: liquids[k] }),
    ),
  ];
  if (foam) surfaces.push(surface('foam top', foam.top, foamId ? { backVolume: foamId } : {}, foamLook));
  if (record.bubbles) {
    const found = layBubbles(record.bubbles, { ...inside, drink });
    if (found.length > 0) addVolume(bubbleVolumeId(recordId), { index: 1, absorptionPerM: [0, 0, 0] }, BUBBLE_PRIORITY);
    surfaces.push(
      ...found.map((bubble) => ({
        recordId,
        role: 'bubble',
        shape: ballShape(bubble.radiusM),
        worldFromLocal: compose(worldFromGlass, bubblePlacement(bubble)),
        finish: CLEAR,
        backVolume: bubbleVolumeId(recordId),
      })),
    );
  }
  return {
    surfaces,
    volumes,
    diagnostics: [...drink.diagnostics, ...layered.diagnostics, ...(foam?.diagnostics ?? [])],
  };
}
