import { DataTexture, FloatType, NearestFilter, RGBAFormat } from 'three';

/** Rows of numbers for a shader to fetch: `texels` RGBA texels to a row, at least one row. */
export function floatTexture(rows: readonly (readonly number[])[], texels: number): DataTexture {
  const height = Math.max(1, rows.length);
  const data = new Float32Array(texels * 4 * height);
  rows.forEach((row, i) => {
    data.set(row, i * texels * 4);
  });
  const texture = new DataTexture(data, texels, height, RGBAFormat, FloatType);
  texture.minFilter = texture.magFilter = NearestFilter;
  texture.needsUpdate = true;
  return texture;
}

/** Writes rows into a uniform's texture; one of another height is disposed and made anew. */
export function fillFloatTexture(
  uniform: { value: DataTexture },
  rows: readonly (readonly number[])[],
  texels: number,
): void {
  const { data, height } = uniform.value.image;
  if (height !== Math.max(1, rows.length) || !(data instanceof Float32Array)) {
    uniform.value.dispose();
    uniform.value = floatTexture(rows, texels);
    return;
  }
  rows.forEach((row, i) => {
    data.set(row, i * texels * 4);
  });
  uniform.value.needsUpdate = true;
}
