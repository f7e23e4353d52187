/** Speed of a point that turns, v = 2 pi r rpm / 60, m/s. */
export const turningSpeedMPerS = (radiusM: number, rpm: number): number => (2 * Math.PI * radiusM * rpm) / 60;

/** Turn from one frame to the next, 6 rpm / fps, degrees. */
export const turnPerFrameDeg = (rpm: number, framesPerS: number): number => (6 * rpm) / framesPerS;

/** Fastest turn that smears a point at `radiusM` by no more than `blurPx` within the shutter, rpm. */
export const rpmForBlur = (blurPx: number, radiusM: number, shutterS: number, pxPerM: number): number =>
  (60 * blurPx) / (2 * Math.PI * radiusM * shutterS * pxPerM);

/**
 * Part of a lamp's ripple that is left in the light of one frame: |sinc(2 f t)|, sinc(x) = sin(pi x) / (pi x), for mains of
 * `mainsHz`, whose light ripples at twice that. The mean of a sine over the shutter time; nothing is left at t = k / (2 f).
 */
export function flickerResidual(shutterS: number, mainsHz: number): number {
  const x = 2 * mainsHz * shutterS;
  return x === 0 ? 1 : Math.abs(Math.sin(Math.PI * x) / (Math.PI * x));
}

/** Does every frame meet the same phase of the ripple, so that nothing moves from frame to frame? */
export const isLockedToMains = (framesPerS: number, mainsHz: number): boolean => {
  const periods = (2 * mainsHz) / framesPerS;
  return Math.abs(periods - Math.round(periods)) < 1e-6 && periods > 0.5;
};

/** Shutter times without flicker that fit into one frame, k / (2 f), longest first; angle of a rotary shutter beside. */
export function safeShutters(
  framesPerS: number,
  mainsHz: number,
): { readonly shutterS: number; readonly angleDeg: number }[] {
  const most = Math.floor((2 * mainsHz) / framesPerS + 1e-9);
  return Array.from({ length: Math.max(0, most) }, (_, i) => {
    const shutterS = (most - i) / (2 * mainsHz);
    return { shutterS, angleDeg: 360 * shutterS * framesPerS };
  });
}
