import type { Material } from 'three';
import { scale, type Vec3 } from '../../../core/vec3.ts';
import type { FrameScene, SetModel } from '../../../scene/setModel.ts';
import { shadeRgbNits } from '../light/sceneLights.ts';
import type { SetObjects } from '../SetObjects.ts';
import { SurfaceMaterial } from './surfaceMaterial.ts';

/**
 * Sets the luminance of emitting faces and of the shades of lanterns.
 *
 * @param unit factor on all luminance; @param profileRows row of each light's profile (see `setLightUniforms`).
 */
export function setEmission(
  objects: SetObjects<Material>,
  scene: FrameScene,
  set: SetModel,
  layerGains: Float32Array,
  unit: number,
  profileRows: ReadonlyMap<string, number>,
): void {
  const layers = new Map(set.layerFixtureIds.map((id, i) => [id, i]));
  const gainOf = (fixtureId: string): Vec3 => {
    const at = 3 * (layers.get(fixtureId) ?? 0);
    return [layerGains[at], layerGains[at + 1], layerGains[at + 2]];
  };
  const shades = new Map<string, Vec3>();
  for (const fixture of scene.fixtures) {
    if (fixture.kind === 'lantern') shades.set(fixture.id, shadeRgbNits(fixture, gainOf(fixture.id)));
  }
  objects.each((_, { emission, recordId, finish }, material) => {
    if (!(material instanceof SurfaceMaterial)) return;
    const shade = finish.type === 'translucent' ? shades.get(recordId) : undefined;
    if (emission) {
      const axial = scale(gainOf(emission.fixtureId), emission.axialLuminanceNits);
      material.setEmission(axial, unit, profileRows.get(emission.fixtureId) ?? -1);
    } else if (shade) {
      material.setEmission(shade, unit, -1);
    }
  });
}
