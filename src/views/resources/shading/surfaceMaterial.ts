import { DoubleSide, GLSL3, type IUniform, ShaderMaterial, type Texture, Vector2, Vector3, Vector4 } from 'three';
import { rec2020FromRec709 } from '../../../core/color/spaces.ts';
import { scale, type Vec3 } from '../../../core/vec3.ts';
import type { Finish } from '../../../materials/finish.ts';
import { meanReflectanceRgb } from '../../../materials/finishPattern.ts';
import { diffuseReflectanceInside } from '../../../materials/fresnel.ts';
import type { OpticalSurface } from '../../../materials/surface.ts';
import type { LightUniforms, RecordNumbers } from '../light/lightTextures.ts';
import { FINISH, surfaceFragmentGlsl, surfaceVertexGlsl } from './surfaceGlsl.ts';

/** What all surface materials of one canvas share. */
export interface SharedUniforms extends LightUniforms {
  /** Light from all round, for views that must show what no light reaches; scaled like all light. */
  readonly kgAmbient: { value: Vector3 };
  /** What black and unlit things show instead of nothing. */
  readonly kgFloor: { value: Vector3 };
  /** Half space that is drawn: dot(point, xyz) + w >= 0. */
  readonly kgClip: { value: Vector4 };
  readonly kgMirror: { value: Texture | null };
  readonly kgViewport: { value: Vector2 };
}

export const EVERYWHERE = new Vector4(0, 0, 0, 1);

export const createSharedUniforms = (light: LightUniforms): SharedUniforms => ({
  ...light,
  kgAmbient: { value: new Vector3() },
  kgFloor: { value: new Vector3() },
  kgClip: { value: EVERYWHERE.clone() },
  kgMirror: { value: null },
  kgViewport: { value: new Vector2(1, 1) },
});

/** A material whose own uniforms are known by name. */
export class SurfaceMaterial extends ShaderMaterial {
  readonly own = {
    kgReflectance: { value: new Vector3() },
    kgTransmittance: { value: new Vector3() },
    kgFinish: { value: 0 },
    kgCoatIndex: { value: 1 },
    kgInside: { value: 0 },
    kgRoughness: { value: 0 },
    kgOwnRecord: { value: 0 },
    kgEmission: { value: new Vector3() },
    kgEmissionProfile: { value: -1 },
    kgMirrored: { value: 0 },
  };

  /** @param outputGlsl the shader's `main`, which writes `kgColour` from `kgShade()`. */
  constructor(shared: SharedUniforms, outputGlsl: string, more: Readonly<Record<string, IUniform>> = {}) {
    super({
      glslVersion: GLSL3,
      vertexShader: surfaceVertexGlsl,
      fragmentShader: surfaceFragmentGlsl + outputGlsl,
      side: DoubleSide,
      toneMapped: false,
    });
    this.uniforms = { ...shared, ...more, ...this.own };
  }

  /** Takes over what a surface is made of. */
  dress(surface: OpticalSurface, numberOf: RecordNumbers): void {
    const { own } = this;
    own.kgOwnRecord.value = numberOf(surface.recordId);
    own.kgFinish.value = surface.emission ? FINISH.emitting : finishNumber(surface.finish);
    const { finish } = surface;
    own.kgReflectance.value.set(...rec2020FromRec709(meanReflectanceRgb(finish)));
    own.kgTransmittance.value.set(
      ...(finish.type === 'translucent' ? rec2020FromRec709(finish.transmittanceRgb) : BLACK),
    );
    own.kgRoughness.value = 'roughness' in finish ? finish.roughness : 0;
    own.kgCoatIndex.value = finish.type === 'gloss' ? finish.coatIndex : 1;
    own.kgInside.value = finish.type === 'gloss' ? diffuseReflectanceInside(finish.coatIndex) : 0;
  }

  /** Luminance of an emitting face on its axis, and the row of its profile (-1 for Lambertian). */
  setEmission(axialRgb: Vec3, unit: number, profileRow: number): void {
    this.own.kgEmission.value.set(...scale(axialRgb, unit));
    this.own.kgEmissionProfile.value = profileRow;
  }
}

const BLACK: Vec3 = [0, 0, 0];

function finishNumber(finish: Finish): number {
  switch (finish.type) {
    case 'clear':
      return FINISH.black;
    default:
      return FINISH[finish.type];
  }
}
