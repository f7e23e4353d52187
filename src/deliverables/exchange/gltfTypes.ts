/** The part of glTF 2.0 (ISO/IEC 12113:2022) that is written. */
export interface Gltf {
  readonly asset: { readonly version: '2.0'; readonly generator: string };
  readonly extensionsUsed?: readonly string[];
  readonly scene: 0;
  readonly scenes: readonly { readonly name: string; readonly nodes: readonly number[]; readonly extras?: object }[];
  readonly nodes: readonly GltfNode[];
  readonly meshes?: readonly { readonly name: string; readonly primitives: readonly GltfPrimitive[] }[];
  readonly materials?: readonly GltfMaterial[];
  readonly accessors?: readonly GltfAccessor[];
  readonly bufferViews?: readonly GltfBufferView[];
  readonly buffers?: readonly { readonly byteLength: number; readonly uri?: string }[];
  readonly cameras?: readonly GltfCamera[];
  readonly extensions?: { readonly KHR_lights_punctual: { readonly lights: readonly GltfLight[] } };
}

export interface GltfNode {
  readonly name: string;
  readonly children?: readonly number[];
  readonly translation?: readonly number[];
  /** Unit quaternion x, y, z, w. */
  readonly rotation?: readonly number[];
  readonly mesh?: number;
  readonly camera?: number;
  readonly extensions?: { readonly KHR_lights_punctual: { readonly light: number } };
}

export interface GltfPrimitive {
  readonly attributes: { readonly POSITION: number; readonly NORMAL: number };
  readonly indices: number;
  readonly material: number;
}

export interface GltfMaterial {
  readonly name: string;
  readonly doubleSided?: true;
  readonly pbrMetallicRoughness: {
    readonly baseColorFactor: readonly [number, number, number, number];
    readonly metallicFactor: number;
    readonly roughnessFactor: number;
  };
  readonly emissiveFactor?: readonly [number, number, number];
  readonly extensions?: Readonly<Record<string, object>>;
}

export interface GltfAccessor {
  readonly bufferView: number;
  readonly componentType: 5125 | 5126;
  readonly count: number;
  readonly type: 'SCALAR' | 'VEC3';
  readonly min?: readonly number[];
  readonly max?: readonly number[];
}

export interface GltfBufferView {
  readonly buffer: 0;
  readonly byteOffset: number;
  readonly byteLength: number;
  readonly target: 34962 | 34963;
}

export interface GltfCamera {
  readonly name: string;
  readonly type: 'perspective';
  readonly perspective: { readonly yfov: number; readonly aspectRatio: number; readonly znear: number };
  readonly extras?: object;
}

export interface GltfLight {
  readonly name: string;
  readonly type: 'point' | 'spot';
  readonly color: readonly [number, number, number];
  /** Candela. */
  readonly intensity: number;
  readonly spot?: { readonly innerConeAngle: number; readonly outerConeAngle: number };
}
