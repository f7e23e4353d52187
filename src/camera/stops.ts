/** A stop of a lens: what is engraved and what it is. */
export interface Stop {
  readonly marked: string;
  readonly fNumber: number;
}

const MARKED_THIRDS =
  '1 1.1 1.2 1.4 1.6 1.8 2 2.2 2.5 2.8 3.2 3.5 4 4.5 5 5.6 6.3 7.1 8 9 10 11 13 14 16 18 20 22 25 29 32 36 40 45 51 57 64';

/**
 * Third stops from f/1 to f/64. The exact value is 2^(k/6); the marks are those of ISO 517 practice, so f/11 is exactly
 * 11.314 and f/5.6 exactly 5.657.
 */
export const THIRD_STOPS: readonly Stop[] = MARKED_THIRDS.split(' ').map((marked, k) => ({
  marked,
  fNumber: 2 ** (k / 6),
}));

/** Full stops, f/1 to f/64. */
export const FULL_STOPS: readonly Stop[] = THIRD_STOPS.filter((_, k) => k % 3 === 0);

/** The stop of a list (thirds when left out) that is nearest in stops; the ends hold beyond the list. */
export const nearestStop = (fNumber: number, stops: readonly Stop[] = THIRD_STOPS): Stop =>
  stops.reduce((best, stop) =>
    Math.abs(Math.log(stop.fNumber / fNumber)) < Math.abs(Math.log(best.fNumber / fNumber)) ? stop : best,
  );

/** The exact f-number behind a marked one (11 gives 11.314); other values are returned unchanged. */
export const exactFNumber = (markedFNumber: number): number =>
  THIRD_STOPS.find((stop) => Number(stop.marked) === markedFNumber)?.fNumber ?? markedFNumber;

/** 'f/8' for the nearest marked third, with tenths of a stop over or under it as meters show them: 'f/8 +0.1'. */
export function formatStop(fNumber: number): string {
  const stop = nearestStop(fNumber);
  const tenths = Math.round(20 * Math.log2(fNumber / stop.fNumber));
  if (tenths === 0) return `f/${stop.marked}`;
  return `f/${stop.marked} ${tenths > 0 ? '+' : '-'}${Math.abs(tenths / 10).toFixed(1)}`;
}

/** Exposure time of a rotary shutter, t = angle / (360 fps). */
export const shutterSFromAngle = (angleDeg: number, framesPerS: number): number => angleDeg / (360 * framesPerS);
export const shutterAngleDeg = (shutterS: number, framesPerS: number): number => shutterS * 360 * framesPerS;

/** '1/50 s' or '0.5 s'. */
export const formatShutter = (shutterS: number): string =>
  shutterS < 0.3 ? `1/${Math.round(1 / shutterS)} s` : `${Number(shutterS.toPrecision(2))} s`;
