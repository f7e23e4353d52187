import type { Camera } from './records.ts';

/** A sensor or gate, named by its size alone. */
export interface SensorFormat {
  readonly name: string;
  readonly widthMm: number;
  readonly heightMm: number;
}

const format = (widthMm: number, heightMm: number, note = ''): SensorFormat => ({
  name: `${widthMm} x ${heightMm} mm${note}`,
  widthMm,
  heightMm,
});
const crop16x9 = (widthMm: number): SensorFormat => format(widthMm, Math.round(widthMm * 56.25) / 100, ', 16:9');

/** Common formats, largest first, each with its 16:9 crop at full width. */
export const SENSOR_FORMATS: readonly SensorFormat[] = [
  format(43.8, 32.9),
  crop16x9(43.8),
  format(36, 24),
  crop16x9(36),
  format(24.89, 18.66),
  crop16x9(24.89),
  format(23.6, 15.6),
  crop16x9(23.6),
  format(17.3, 13),
  crop16x9(17.3),
];

/** The listed format that a camera has, to 0.1 mm either side and either way up; undefined for another size. */
export function findFormat(camera: Pick<Camera, 'sensorWidthMm' | 'sensorHeightMm'>): SensorFormat | undefined {
  const near = (a: number, b: number): boolean => Math.abs(a - b) <= 0.1;
  return SENSOR_FORMATS.find(
    (f) =>
      (near(f.widthMm, camera.sensorWidthMm) && near(f.heightMm, camera.sensorHeightMm)) ||
      (near(f.heightMm, camera.sensorWidthMm) && near(f.widthMm, camera.sensorHeightMm)),
  );
}

export const formatDiagonalMm = (f: Pick<SensorFormat, 'widthMm' | 'heightMm'>): number =>
  Math.hypot(f.widthMm, f.heightMm);
