import {
  CustomBlending,
  DoubleSide,
  GLSL3,
  type Material,
  Matrix3,
  OneFactor,
  OneMinusSrcAlphaFactor,
  ShaderMaterial,
  Vector3,
} from 'three';
import type { DevelopParams } from '../../camera/developParams.ts';
import { applyMatrix3, invertMatrix3 } from '../../core/matrix3.ts';
import type { Vec3 } from '../../core/vec3.ts';
import type { OpticalSurface, Volume } from '../../materials/surface.ts';
import type { RecordNumbers } from '../resources/light/lightTextures.ts';
import type { SurfaceDresser } from '../resources/SetObjects.ts';
import { surfaceVertexGlsl } from '../resources/shading/surfaceGlsl.ts';
import { type SharedUniforms, SurfaceMaterial } from '../resources/shading/surfaceMaterial.ts';
import { screenOutputGlsl, veilFragmentGlsl } from './stageGlsl.ts';

/** Light from all round in sensor exposure, so that the shapes read where no lamp reaches. */
const AMBIENT = 0.055;
/** What housings and flags show: a little over the room. */
const HOUSING = 0.03;
const WARM_GREY: Vec3 = [1, 0.94, 0.86];
/** Depth of drink that a tint stands for. */
const TINT_DEPTH_M = 0.03;

/** Materials of the stage: plain matte or glossy bodies under the actual lights, glass as a veil. */
export class StageMaterials implements SurfaceDresser<Material> {
  readonly #shared: SharedUniforms;
  readonly #numberOf: RecordNumbers;
  readonly #screen = { kgSensor: { value: new Matrix3() } };
  #volumes: ReadonlyMap<string, Volume> = new Map();

  constructor(shared: SharedUniforms, numberOf: RecordNumbers) {
    this.#shared = shared;
    this.#numberOf = numberOf;
  }

  /** Takes over the camera's white balance; the light from all round is white to it, a little warm. */
  setDevelopment({ whiteBalance: m }: DevelopParams): void {
    const [r, g, b] = applyMatrix3(invertMatrix3(m), WARM_GREY);
    this.#shared.kgAmbient.value.set(r, g, b).multiplyScalar(AMBIENT);
    this.#shared.kgFloor.value.set(r, g, b).multiplyScalar(HOUSING);
    this.#screen.kgSensor.value.set(m[0], m[1], m[2], m[3], m[4], m[5], m[6], m[7], m[8]);
  }

  setVolumes(volumes: readonly Volume[]): void {
    this.#volumes = new Map(volumes.map((volume) => [volume.id, volume]));
  }

  make(surface: OpticalSurface): Material | null {
    if (surface.finish.type === 'clear') {
      const material = new VeilMaterial(this.#shared, this.#screen);
      this.#dressVeil(material, surface);
      return material;
    }
    const material = new SurfaceMaterial(this.#shared, screenOutputGlsl, this.#screen);
    // Edges are drawn on the faces; the faces give way.
    material.polygonOffset = true;
    material.polygonOffsetFactor = 1;
    material.polygonOffsetUnits = 2;
    material.dress(surface, this.#numberOf);
    return material;
  }

  update(material: Material, surface: OpticalSurface): void {
    if (material instanceof SurfaceMaterial) material.dress(surface, this.#numberOf);
    else if (material instanceof VeilMaterial) this.#dressVeil(material, surface);
  }

  /** A drink is tinted by what it absorbs over a few centimetres; glass and ice are a trace. */
  #dressVeil(material: VeilMaterial, surface: OpticalSurface): void {
    const behind = this.#volumes.get(surface.frontVolume ?? surface.backVolume ?? '');
    const isDrink = behind?.id.endsWith(':drink') === true;
    const [r, g, b] = behind?.medium.absorptionPerM ?? [0, 0, 0];
    const through = (perM: number): number => Math.exp(-perM * TINT_DEPTH_M);
    material.tint.set(through(r), through(g), through(b));
    material.veil.value = isDrink ? 0.5 : surface.role.startsWith('ice') ? 0.12 : 0.05;
  }
}

class VeilMaterial extends ShaderMaterial {
  readonly tint = new Vector3(1, 1, 1);
  readonly veil = { value: 0 };

  constructor(shared: SharedUniforms, screen: { kgSensor: { value: Matrix3 } }) {
    super({
      glslVersion: GLSL3,
      vertexShader: surfaceVertexGlsl,
      fragmentShader: veilFragmentGlsl,
      side: DoubleSide,
      toneMapped: false,
      transparent: true,
      depthWrite: false,
      // The shader's colour is light to add; its alpha is how much of what lies behind goes.
      blending: CustomBlending,
      blendSrc: OneFactor,
      blendDst: OneMinusSrcAlphaFactor,
    });
    this.uniforms = { ...shared, ...screen, kgTint: { value: this.tint }, kgVeil: this.veil };
  }
}
