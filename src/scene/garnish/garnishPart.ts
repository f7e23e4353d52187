import { compose, type RigidTransform } from '../../core/rigid.ts';
import type { Finish } from '../../materials/finish.ts';
import type { Medium, OpticalSurface, Volume } from '../../materials/surface.ts';
import type { SolidPart } from '../parts/solidPart.ts';
import { CLEAR_EXTRA_PRIORITY } from '../priorities.ts';

/** A face of a garnish in its own frame. `glass` marks closed clear bodies (a glass straw). */
export interface GarnishPart extends SolidPart {
  readonly finish: Finish;
  readonly glass?: true;
}

export const dressed = (finish: Finish, parts: readonly SolidPart[]): GarnishPart[] =>
  parts.map((part) => ({ ...part, finish }));

export const moveParts = (parts: readonly GarnishPart[], placement: RigidTransform): GarnishPart[] =>
  parts.map((part) => ({ ...part, worldFromLocal: compose(placement, part.worldFromLocal) }));

/** Clear soda-lime glass of straws and stirrers. */
const GLASS: Medium = { index: 1.52, absorptionPerM: [2, 0.8, 1.6] };

/** Surfaces and volumes of one garnish of a record. */
export function surfacesOfGarnish(
  recordId: string,
  name: string,
  parts: readonly GarnishPart[],
): { surfaces: OpticalSurface[]; volumes: Volume[] } {
  const id = `${recordId}:${name.replaceAll(' ', '-')}`;
  const surfaces = parts.map(
    ({ role, shape, worldFromLocal, finish, glass }): OpticalSurface => ({
      recordId,
      role: `${name}: ${role}`,
      shape,
      worldFromLocal,
      finish,
      ...(glass ? { backVolume: id } : {}),
    }),
  );
  const volumes = parts.some((p) => p.glass) ? [{ id, recordId, medium: GLASS, priority: CLEAR_EXTRA_PRIORITY }] : [];
  return { surfaces, volumes };
}
