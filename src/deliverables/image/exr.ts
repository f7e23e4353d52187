/** What an OpenEXR file holds, as far as Keyglass writes and reads it: one part of scan lines, 32-bit float channels. */
export interface ExrImage {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly channels: readonly ExrChannel[];
  /** CIE xy of red, green, blue and white. Left out, readers assume Rec. 709, D65. */
  readonly chromaticities?: ExrChromaticities;
  /** Free header entries: text becomes a `string`, a number a `float` attribute. */
  readonly attributes?: Readonly<Record<string, string | number>>;
}

/** `name` is `R`, `G`, `B` for the picture and `LAYER.R` and so on for a layer; samples n, row 0 at the top. */
export interface ExrChannel {
  readonly name: string;
  readonly samples: Float32Array;
}

export type ExrChromaticities = readonly [
  redX: number,
  redY: number,
  greenX: number,
  greenY: number,
  blueX: number,
  blueY: number,
  whiteX: number,
  whiteY: number,
];

/** ITU-R BT.709-6, item 1.3 and 1.4. */
export const REC709_CHROMATICITIES: ExrChromaticities = [0.64, 0.33, 0.3, 0.6, 0.15, 0.06, 0.3127, 0.329];

/** First four bytes, 20000630 little-endian. */
export const EXR_MAGIC = 20000630;
export const EXR_VERSION = 2;
/** Version flag: names of attributes and channels may be up to 255 bytes instead of 31. */
export const EXR_LONG_NAMES = 0x400;
export const EXR_FLOAT = 2;

export const EXR_COMPRESSION = { none: 0, zips: 2, zip: 3 } as const;
export type ExrCompression = keyof typeof EXR_COMPRESSION;
/** Scan lines in a block. */
export const EXR_BLOCK_LINES: Readonly<Record<ExrCompression, number>> = { none: 1, zips: 1, zip: 16 };

/** R, G and B channels of interleaved RGB, under a layer name when one is given. */
export function exrChannelsFromRgb(rgb: Float32Array, layer?: string): ExrChannel[] {
  return ['R', 'G', 'B'].map((channel, c) => {
    const samples = new Float32Array(rgb.length / 3);
    for (let i = 0; i < samples.length; i += 1) samples[i] = rgb[i * 3 + c];
    return { name: layer === undefined ? channel : `${layer}.${channel}`, samples };
  });
}
