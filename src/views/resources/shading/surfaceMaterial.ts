import {
  DoubleSide,
  GLSL3,
  type IUniform,
  Matrix4,
  ShaderMaterial,
  type Texture,
  Vector2,
  Vector3,
  Vector4,
} from 'three';
import { rec2020FromRec709 } from '../../../core/color/spaces.ts';
import { scale, type Vec3 } from '../../../core/vec3.ts';
import type { Finish } from '../../../materials/finish.ts';
import { finishPattern, meanReflectanceRgb, scratchedShare } from '../../../materials/finishPattern.ts';
import { diffuseReflectanceInside } from '../../../materials/fresnel.ts';
import { meanPatternMix, type PatternNumbers } from '../../../materials/pattern.ts';
import { PATTERN_PARAMETERS, PatternKind } from '../../../materials/patterns/patternMixAt.ts';
import type { OpticalSurface } from '../../../materials/surface.ts';
import type { LightUniforms, RecordNumbers } from '../light/lightTextures.ts';
import { EVEN_SURFACE, FINISH, type SurfacePatterns, surfaceFragmentGlsl, surfaceVertexGlsl } from './surfaceGlsl.ts';

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
    kgPatternFromWorld: { value: new Matrix4() },
    kgPattern: { value: noNumbers() },
    /** Colour that the pattern mixes in, and its mean share. */
    kgSecond: { value: new Vector4() },
    kgDust: { value: noNumbers() },
    kgDustRgb: { value: new Vector4() },
    kgScratches: { value: noNumbers() },
    kgScratchMean: { value: 0 },
  };
  readonly #outputGlsl: string;
  #patterns: SurfacePatterns = EVEN_SURFACE;

  /** @param outputGlsl the shader's `main`, which writes `kgColour` from `kgShade()`. */
  constructor(shared: SharedUniforms, outputGlsl: string, more: Readonly<Record<string, IUniform>> = {}) {
    super({
      glslVersion: GLSL3,
      vertexShader: surfaceVertexGlsl,
      fragmentShader: surfaceFragmentGlsl(EVEN_SURFACE) + outputGlsl,
      side: DoubleSide,
      toneMapped: false,
    });
    this.uniforms = { ...shared, ...more, ...this.own };
    this.#outputGlsl = outputGlsl;
  }

  /** Takes over what a surface is made of. */
  dress(surface: OpticalSurface, numberOf: RecordNumbers): void {
    const { own } = this;
    own.kgOwnRecord.value = numberOf(surface.recordId);
    own.kgFinish.value = surface.emission ? FINISH.emitting : finishNumber(surface.finish);
    const { finish } = surface;
    this.#setPatterns(surface);
    own.kgTransmittance.value.set(
      ...(finish.type === 'translucent' ? rec2020FromRec709(finish.transmittanceRgb) : BLACK),
    );
    own.kgRoughness.value = 'roughness' in finish ? finish.roughness : 0;
    own.kgCoatIndex.value = finish.type === 'gloss' ? finish.coatIndex : 1;
    own.kgInside.value = finish.type === 'gloss' ? diffuseReflectanceInside(finish.coatIndex) : 0;
  }

  #setPatterns({ finish, patternFrame, worldFromLocal, emission }: OpticalSurface): void {
    const { own } = this;
    const { base, dust, scratches } = finishPattern(finish);
    const patterns: SurfacePatterns = emission
      ? EVEN_SURFACE
      : { base: base?.kind ?? PatternKind.none, dust: dust !== null, scratches: scratches !== null };
    const isEven = !base && !dust && !scratches;
    const first = !isEven && 'reflectanceRgb' in finish ? finish.reflectanceRgb : meanReflectanceRgb(finish);
    own.kgReflectance.value.set(...rec2020FromRec709(first));
    if (isEven) {
      this.#take(EVEN_SURFACE);
      return;
    }
    const frame = patternFrame ?? worldFromLocal;
    const [a, b, c, d, e, f, g, h, i] = frame.rotation;
    const [x, y, z] = frame.translationM;
    own.kgPatternFromWorld.value.set(a, b, c, x, d, e, f, y, g, h, i, z, 0, 0, 0, 1).invert();
    const put = (numbers: PatternNumbers | null, into: { value: number[] }, rgb: { value: Vector4 }, mean: number) => {
      if (!numbers) return;
      into.value = [...numbers.params];
      rgb.value.set(...rec2020FromRec709(numbers.secondRgb), mean);
    };
    const mean = 'pattern' in finish && finish.pattern ? meanPatternMix(finish.pattern) : 0;
    put(base, own.kgPattern, own.kgSecond, mean);
    if (finish.type === 'gloss') put(dust, own.kgDust, own.kgDustRgb, finish.dust ?? 0);
    if (scratches) own.kgScratches.value = [...scratches.params];
    own.kgScratchMean.value = finish.type === 'gloss' ? scratchedShare(finish.scratches ?? 0) : 0;
    this.#take(patterns);
  }

  /** Changes the program where the patterns are of other kinds than before. */
  #take(patterns: SurfacePatterns): void {
    const now = this.#patterns;
    if (now.base === patterns.base && now.dust === patterns.dust && now.scratches === patterns.scratches) return;
    this.#patterns = patterns;
    this.fragmentShader = surfaceFragmentGlsl(patterns) + this.#outputGlsl;
    this.needsUpdate = true;
  }

  /** Luminance of an emitting face on its axis, and the row of its profile (-1 for Lambertian). */
  setEmission(axialRgb: Vec3, unit: number, profileRow: number): void {
    this.own.kgEmission.value.set(...scale(axialRgb, unit));
    this.own.kgEmissionProfile.value = profileRow;
  }
}

const BLACK: Vec3 = [0, 0, 0];
const noNumbers = (): number[] => new Array(PATTERN_PARAMETERS).fill(0);

function finishNumber(finish: Finish): number {
  switch (finish.type) {
    case 'clear':
      return FINISH.black;
    default:
      return FINISH[finish.type];
  }
}
