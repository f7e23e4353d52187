import type { DataTexture } from 'three';
import { length, type Vec3 } from '../../../core/vec3.ts';
import type { EmissionProfile } from '../../../materials/surface.ts';
import { fillFloatTexture, floatTexture } from '../floatTexture.ts';
import type { Backdrop } from './backdrops.ts';
import type { ShadedLight } from './directIlluminance.ts';
import type { LightField } from './lightField.ts';
import {
  BACKDROP_TEXELS,
  LIGHT_KIND,
  LIGHT_TEXELS,
  OCCLUDER_KIND,
  OCCLUDER_TEXELS,
  PATCH_TEXELS,
} from './lightingGlsl.ts';
import type { Occluder } from './occluder.ts';
import { PROFILE_STEPS, profileTable } from './profileTable.ts';

/** Uniforms of {@link lightingGlsl}, shared by all materials of one canvas. */
export interface LightUniforms {
  readonly kgLights: { value: DataTexture };
  readonly kgOccluders: { value: DataTexture };
  readonly kgPatches: { value: DataTexture };
  readonly kgProfiles: { value: DataTexture };
  readonly kgBackdrops: { value: DataTexture };
  readonly kgLightCount: { value: number };
  readonly kgPatchCount: { value: number };
  readonly kgBackdropCount: { value: number };
  readonly kgCells: { value: number };
}

/** Number that stands for a record in shaders; nothing has 0. */
export type RecordNumbers = (recordId: string) => number;

export function createRecordNumbers(): RecordNumbers {
  const numbers = new Map<string, number>();
  return (recordId) => {
    let number = numbers.get(recordId);
    if (number === undefined) {
      number = numbers.size + 1;
      numbers.set(recordId, number);
    }
    return number;
  };
}

export const createLightUniforms = (cells: number): LightUniforms => ({
  kgLights: { value: floatTexture([], LIGHT_TEXELS) },
  kgOccluders: { value: floatTexture([], OCCLUDER_TEXELS) },
  kgPatches: { value: floatTexture([], PATCH_TEXELS) },
  kgProfiles: { value: floatTexture([], PROFILE_STEPS) },
  kgBackdrops: { value: floatTexture([], BACKDROP_TEXELS) },
  kgLightCount: { value: 0 },
  kgPatchCount: { value: 0 },
  kgBackdropCount: { value: 0 },
  kgCells: { value: cells },
});

/**
 * Writes a field into the uniforms. Textures are kept while their size holds; others are disposed and made anew.
 *
 * @param scale factor on all luminance, so that half floats hold it: sensor exposure per cd/m2.
 * @returns by record of each light, the row of its profile; -1 for Lambertian.
 */
export function setLightUniforms(
  uniforms: LightUniforms,
  field: LightField,
  backdrops: readonly Backdrop[],
  numberOf: RecordNumbers,
  scale: number,
): ReadonlyMap<string, number> {
  const profileRows = new Map<string, number>();
  const profiles: Float32Array[] = [];
  const occluderRows: number[][] = [];
  const lightRows = field.lights.map((shaded) => {
    const from = occluderRows.length;
    for (const occluder of shaded.occluders) occluderRows.push(occluderRow(occluder, numberOf));
    const row = profileRow(shaded.light.profile, profiles);
    profileRows.set(shaded.light.recordId, row);
    return lightRow(shaded, from, row, numberOf, scale);
  });
  const patchRows = field.patches.map(({ centreM, normal, areaM2, rgbNits }) => [
    ...[...centreM, areaM2],
    ...[...normal, 0],
    ...[...scaled(rgbNits, scale), 0],
  ]);
  const backdropRows = backdrops.map(({ originM, edgeUM, edgeVM, rgbNits }) => [
    ...[...originM, 0],
    ...[...edgeUM, 0],
    ...[...edgeVM, 0],
    ...[...scaled(rgbNits, scale), 0],
  ]);
  fillFloatTexture(uniforms.kgBackdrops, backdropRows, BACKDROP_TEXELS);
  uniforms.kgBackdropCount.value = backdropRows.length;
  fillFloatTexture(uniforms.kgLights, lightRows, LIGHT_TEXELS);
  fillFloatTexture(uniforms.kgOccluders, occluderRows, OCCLUDER_TEXELS);
  fillFloatTexture(uniforms.kgPatches, patchRows, PATCH_TEXELS);
  fillFloatTexture(
    uniforms.kgProfiles,
    profiles.map((table) => Array.from(table, (v) => [v, 0, 0, 1]).flat()),
    PROFILE_STEPS,
  );
  uniforms.kgLightCount.value = lightRows.length;
  uniforms.kgPatchCount.value = patchRows.length;
  return profileRows;
}

export function disposeLightUniforms(uniforms: LightUniforms): void {
  const { kgLights, kgOccluders, kgPatches, kgProfiles, kgBackdrops } = uniforms;
  for (const { value } of [kgLights, kgOccluders, kgPatches, kgProfiles, kgBackdrops]) value.dispose();
}

/** Row of a profile's table; -1 for Lambertian, which needs none. */
function profileRow(profile: EmissionProfile, profiles: Float32Array[]): number {
  if (profile.type === 'lambert') return -1;
  const table = profileTable(profile);
  const known = profiles.indexOf(table);
  return known >= 0 ? known : profiles.push(table) - 1;
}

function lightRow(
  { light, occluders }: ShadedLight,
  firstOccluder: number,
  profile: number,
  numberOf: RecordNumbers,
  scale: number,
): number[] {
  return [
    ...[...light.centreM, LIGHT_KIND[light.kind]],
    ...[...light.halfUM, light.edgeFalloff],
    ...[...light.halfVM, profile],
    ...[...light.normal, firstOccluder],
    ...[...scaled(light.axialRgbNits, scale), light.areaM2],
    ...[occluders.length, light.secondHand ? 1 : 0, numberOf(light.recordId), 0],
  ];
}

function occluderRow(occluder: Occluder, numberOf: RecordNumbers): number[] {
  const owner = occluder.shadesItself ? 0 : numberOf(occluder.recordId);
  const last = [occluder.transmittance, owner, OCCLUDER_KIND[occluder.kind], 0];
  switch (occluder.kind) {
    case 'sheet': {
      const { originM, edgeUM, edgeVM } = occluder;
      return [...originM, 0, ...edgeUM, length(edgeUM), ...edgeVM, length(edgeVM), ...last];
    }
    case 'cylinder':
      return [
        ...occluder.footM,
        0,
        occluder.radiusM,
        occluder.heightM,
        ...(occluder.lean ?? [0, 0]),
        0,
        0,
        0,
        0,
        ...last,
      ];
    case 'box':
      return [...occluder.centreM, 0, ...occluder.halfM, 0, ...occluder.across, 0, ...last];
    case 'shell': {
      const { footM, radiusM, heightM, closedTop, closedBottom } = occluder;
      return [...footM, 0, radiusM, heightM, closedTop ? 1 : 0, closedBottom ? 1 : 0, 0, 0, 0, 0, ...last];
    }
    case 'aperture':
      return [...occluder.centreM, 0, ...occluder.normal, occluder.radiusM, 0, 0, 0, 0, ...last];
  }
}

const scaled = (rgb: Vec3, scale: number): number[] => rgb.map((v) => v * scale);
