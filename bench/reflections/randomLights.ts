import type { Dice } from './dice.ts';

const KINDS = ['panel', 'spot', 'bulb', 'tube', 'softbox', 'lantern', 'measured'] as const;

/** A light of any kind, over, behind or beside the set, aimed near the glass. */
export function randomFixture(dice: Dice, id: string): Record<string, unknown> {
  const kind = dice.oneOf(KINDS);
  const common = {
    kind,
    id,
    name: `Light ${id.slice(-1)}, ${kind}`,
    positionM: placeAround(dice, 0.45, 1.5),
    aimM: [dice.between(-0.1, 0.1), dice.between(0, 0.12), dice.between(-0.1, 0.1)],
    dimStops: -dice.between(0, 2),
    cctK: dice.oneOf([2700, 3200, 4300, 5600]),
  };
  switch (kind) {
    case 'panel':
      return {
        ...common,
        output: lumens(dice.between(800, 6000)),
        widthM: dice.between(0.15, 0.6),
        heightM: dice.between(0.1, 0.4),
        beamAngleDeg: dice.between(60, 120),
        ...(dice.chance(0.25) ? { gridCutoffDeg: dice.between(30, 60) } : {}),
      };
    case 'spot':
      return {
        ...common,
        output: lumens(dice.between(300, 3000)),
        lensDiameterM: dice.between(0.05, 0.15),
        beamAngleDeg: dice.between(12, 60),
      };
    case 'bulb':
      return { ...common, output: lumens(dice.between(400, 1500)), diameterM: dice.between(0.04, 0.09) };
    case 'tube':
      return {
        ...common,
        output: lumens(dice.between(600, 2500)),
        lengthM: dice.between(0.3, 1.2),
        rollDeg: dice.between(-90, 90),
      };
    case 'softbox':
      return {
        ...common,
        output: lumens(dice.between(1500, 8000)),
        widthM: dice.between(0.3, 0.9),
        heightM: dice.between(0.3, 0.9),
        edgeFalloff: dice.between(0, 0.6),
      };
    case 'lantern':
      return {
        ...common,
        output: lumens(dice.between(300, 900)),
        shape: dice.oneOf(['cylinder', 'sphere']),
        diameterM: 0.2,
        heightM: dice.between(0.12, 0.2),
      };
    case 'measured':
      return {
        ...common,
        output: lumens(dice.between(500, 3000)),
        opening: dice.oneOf([
          { shape: 'rectangle', widthM: 0.2, heightM: 0.12 },
          { shape: 'disc', diameterM: 0.1 },
        ]),
        distribution: beam(dice.between(1, 12)),
      };
  }
}

/** A bounce card, a flag or a diffusion frame on a stand. */
export function randomGrip(dice: Dice, id: string): Record<string, unknown> {
  const kind = dice.oneOf(['bounceCard', 'bounceCard', 'flag', 'diffusionFrame']);
  return {
    kind,
    id,
    name: `Sheet ${id.slice(-1)}, ${kind}`,
    positionM: placeAround(dice, 0.28, 0.7),
    aimM: [0, dice.between(0.02, 0.12), 0],
    rollDeg: dice.between(-20, 20),
    widthM: dice.between(0.12, 0.5),
    heightM: dice.between(0.12, 0.5),
  };
}

/** Anywhere over the table but where the camera stands. */
function placeAround(dice: Dice, nearM: number, farM: number): [number, number, number] {
  // 0 is toward the camera.
  const turnRad = (dice.between(50, 310) * Math.PI) / 180;
  const distanceM = dice.between(nearM, farM);
  const elevationRad = (dice.between(12, 75) * Math.PI) / 180;
  const level = distanceM * Math.cos(elevationRad);
  return [level * Math.sin(turnRad), 0.05 + distanceM * Math.sin(elevationRad), level * Math.cos(turnRad)];
}

const lumens = (value: number) => ({ unit: 'lumens', value });

/** Intensity as a power of the cosine about the axis, as a stored distribution in steps of 5 degrees. */
function beam(exponent: number): Record<string, unknown> {
  const thetaCount = 37;
  const values = Array.from({ length: thetaCount }, (_, i) => {
    const cos = Math.cos((i * Math.PI) / (thetaCount - 1));
    return cos > 1e-9 ? cos ** exponent : 0;
  });
  return {
    source: { name: 'Power of the cosine', format: 'LM-63', lumens: 1000, peakCandela: 1000 },
    thetaCount,
    phiSpanDeg: 0,
    planes: [values.map((value) => Math.round(value * 100_000)).join(' ')],
  };
}
