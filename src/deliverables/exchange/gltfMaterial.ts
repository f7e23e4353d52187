import type { Vec3 } from '../../core/vec3.ts';
import type { Finish } from '../../materials/finish.ts';
import type { Medium } from '../../materials/surface.ts';
import type { GltfMaterial } from './gltfTypes.ts';

/** glTF's roughness is the square root of the GGX alpha (specification, appendix B.2.3). */
const roughnessFromAlpha = (alpha: number): number => Math.sqrt(Math.min(1, Math.max(0, alpha)));

const opaque = (rgb: readonly number[]): readonly [number, number, number, number] => [rgb[0], rgb[1], rgb[2], 1];

/**
 * A surface finish in glTF's metallic-roughness model. Base colour factors are linear, as records hold them.
 *
 * - gloss: the base under its coat; the coat is the model's own dielectric, of the coat's index (KHR_materials_ior).
 * - translucent: an infinitely thin sheet that lets through b t and sends back b (1 - t) of base colour b
 *   (KHR_materials_transmission), scattered as widely as the model can.
 */
export function materialFromFinish(finish: Exclude<Finish, { type: 'clear' }>, name: string): GltfMaterial {
  switch (finish.type) {
    case 'matte':
      return plain(name, opaque(finish.reflectanceRgb), 0, 1, { KHR_materials_specular: { specularFactor: 0 } });
    case 'gloss':
      return plain(name, opaque(finish.reflectanceRgb), 0, roughnessFromAlpha(finish.roughness), {
        KHR_materials_ior: { ior: finish.coatIndex },
      });
    case 'metal':
      return plain(name, opaque(finish.reflectanceRgb), 1, roughnessFromAlpha(finish.roughness));
    case 'mirror':
      return plain(name, opaque(finish.reflectanceRgb), 1, 0);
    case 'black':
      return plain(name, [0, 0, 0, 1], 0, 1, { KHR_materials_specular: { specularFactor: 0 } });
    case 'translucent': {
      const { reflectanceRgb: r, transmittanceRgb: t } = finish;
      const through = mean(t) / Math.max(1e-6, mean(r) + mean(t));
      const base = opaque([0, 1, 2].map((k) => Math.min(1, r[k] + t[k])));
      return {
        ...plain(name, base, 0, 1, { KHR_materials_transmission: { transmissionFactor: through } }),
        doubleSided: true,
      };
    }
  }
}

const mean = (rgb: readonly number[]): number => (rgb[0] + rgb[1] + rgb[2]) / 3;

const plain = (
  name: string,
  baseColorFactor: readonly [number, number, number, number],
  metallicFactor: number,
  roughnessFactor: number,
  extensions?: Readonly<Record<string, object>>,
): GltfMaterial => ({
  name,
  pbrMetallicRoughness: { baseColorFactor, metallicFactor, roughnessFactor },
  ...(extensions ? { extensions } : {}),
});

/**
 * A clear body: all light goes through its surface, bends by its index and fades by Beer-Lambert (KHR_materials_volume:
 * transmittance = attenuationColor ^ (path / attenuationDistance)). The distance is that at which the channel that fades
 * fastest is down to 1/e, so no channel is ever lost to rounding.
 *
 * @param thicknessM for viewers that don't follow rays: the mean way through the body
 */
export function materialFromMedium(medium: Medium, roughness: number, thicknessM: number, name: string): GltfMaterial {
  const fastest = Math.max(...medium.absorptionPerM);
  const attenuation =
    fastest > 0
      ? { attenuationDistance: 1 / fastest, attenuationColor: medium.absorptionPerM.map((a) => Math.exp(-a / fastest)) }
      : {};
  return plain(name, [1, 1, 1, 1], 0, roughnessFromAlpha(roughness), {
    KHR_materials_transmission: { transmissionFactor: 1 },
    KHR_materials_ior: { ior: medium.index },
    KHR_materials_volume: { thicknessFactor: thicknessM, ...attenuation },
  });
}

/** The shining face, in the colour of its light at the brightest that a picture shows. The light itself is punctual. */
export const materialOfFace = (colorRgb: Vec3, isOn: boolean, name: string): GltfMaterial => ({
  ...plain(name, [0, 0, 0, 1], 0, 1),
  ...(isOn ? { emissiveFactor: [colorRgb[0], colorRgb[1], colorRgb[2]] } : {}),
});
