import { type DataTexture, DoubleSide, GLSL3, Matrix4, ShaderMaterial, type Texture, Vector3, Vector4 } from 'three';
import { fillFloatTexture, floatTexture } from '../floatTexture.ts';
import { CUT_STYLE, glassFragmentGlsl, SEGMENT_TEXELS } from './glassGlsl.ts';
import { type GlassProfileModel, type IceCube, MOST_ICE } from './glassProfile.ts';
import { surfaceVertexGlsl } from './surfaceGlsl.ts';
import type { SharedUniforms } from './surfaceMaterial.ts';

/** What all glass of one canvas shares beside the light. */
export interface ViewUniforms {
  /** The picture so far, without glass. */
  readonly kgBehind: { value: Texture | null };
  readonly kgViewProjection: { value: Matrix4 };
}

export const createViewUniforms = (): ViewUniforms => ({
  kgBehind: { value: null },
  kgViewProjection: { value: new Matrix4() },
});

/** One vessel's own uniforms, shared by the materials of all its surfaces. */
export class GlassUniforms {
  readonly values = {
    kgSegments: { value: floatTexture([], SEGMENT_TEXELS) as DataTexture },
    kgSegmentCount: { value: 0 },
    kgIsFrosted: { value: false },
    /** Style, count, depth and turn; style 0 is none. */
    kgCut: { value: new Vector4() },
    kgCutFrom: { value: 0 },
    kgCutTo: { value: 0 },
    kgFoot: { value: new Vector3() },
    kgLevel: { value: 0 },
    kgIndex: { value: [1, 1, 1, 1] },
    kgAbsorption: { value: [new Vector3(), new Vector3(), new Vector3(), new Vector3()] },
    kgScattering: { value: new Vector3() },
    /** Luminance of a cloud that turns all light aside, where the drink stands. */
    kgCloud: { value: new Vector3() },
    kgIce: { value: Array.from({ length: MOST_ICE }, () => new Matrix4()) },
    kgIceCount: { value: 0 },
  };

  set(model: GlassProfileModel): void {
    const { values } = this;
    const rows = model.segments.map(({ from, to, frontMedium, backMedium, roughness, isOuterWall }) => [
      ...[from.rM, from.yM, to.rM, to.yM],
      ...[from.normalR, from.normalY, to.normalR, to.normalY],
      ...[frontMedium, backMedium, roughness, isOuterWall ? 1 : 0],
    ]);
    fillFloatTexture(values.kgSegments, rows, SEGMENT_TEXELS);
    values.kgSegmentCount.value = rows.length;
    values.kgIsFrosted.value = model.segments.some(({ roughness }) => roughness > 0);
    const { cut } = model;
    if (cut) values.kgCut.value.set(CUT_STYLE[cut.style], cut.count, cut.depthM, cut.turnRad);
    else values.kgCut.value.set(0, 1, 0, 0);
    values.kgCutFrom.value = cut?.bottomM ?? 0;
    values.kgCutTo.value = cut?.topM ?? 0;
    values.kgFoot.value.set(...model.footM);
    values.kgLevel.value = model.levelM;
    values.kgIndex.value = [...model.indices];
    values.kgScattering.value.set(...model.drinkScatteringPerM);
    model.absorptionsPerM.forEach((absorption, i) => {
      values.kgAbsorption.value[i].set(...absorption);
    });
    model.ice.forEach((cube, i) => {
      values.kgIce.value[i].copy(cubeFromWorld(cube));
    });
    values.kgIceCount.value = model.ice.length;
  }

  dispose(): void {
    this.values.kgSegments.value.dispose();
  }
}

export const createGlassMaterial = (
  shared: SharedUniforms,
  view: ViewUniforms,
  glass: GlassUniforms,
): ShaderMaterial => {
  const material = new ShaderMaterial({
    glslVersion: GLSL3,
    vertexShader: surfaceVertexGlsl,
    fragmentShader: glassFragmentGlsl,
    side: DoubleSide,
    toneMapped: false,
  });
  material.uniforms = { ...shared, ...view, ...glass.values };
  return material;
};

/** World to the cube in which the ice is -1..1 each way. */
function cubeFromWorld({ centreM, halfEdgesM: [x, y, z] }: IceCube): Matrix4 {
  return new Matrix4()
    .makeBasis(new Vector3(...x), new Vector3(...y), new Vector3(...z))
    .setPosition(...centreM)
    .invert();
}
