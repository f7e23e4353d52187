import {
  compose,
  fromAxes,
  fromHeading,
  IDENTITY,
  invert,
  type RigidTransform,
  translation,
} from '../../core/rigid.ts';
import { createRandom } from '../../core/rng.ts';
import { radFromDeg } from '../../core/units.ts';
import { normalize, sub, type Vec3 } from '../../core/vec3.ts';
import { boundsOfShape } from '../bounds.ts';
import type { Garnish } from '../records.ts';
import { type Berries, berryParts } from './berries.ts';
import { citrusWedgeParts } from './citrusWedge.ts';
import { citrusWheelParts } from './citrusWheel.ts';
import { type GarnishPart, moveParts } from './garnishPart.ts';
import { mintParts } from './mint.ts';
import { olivesParts } from './olives.ts';
import { stirrerParts, strawParts } from './tubes.ts';
import { coilPoints, coilRadiusM, smoothCurve, stripParts, type Twist } from './twist.ts';

/** Lies on its side: local y along +x, local x up. */
const ON_SIDE: RigidTransform = fromAxes([0, 1, 0], [1, 0, 0], [0, 0, -1], [0, 0, 0]);

/** A garnish by itself, lying with its lowest point `liftM` over height 0, turned by its azimuth. */
export function garnishOnTable(garnish: Garnish, liftM: number): GarnishPart[] {
  const turn = fromHeading([0, 0, 0], radFromDeg(garnish.azimuthDeg));
  if (garnish.kind === 'berries') return moveParts(berriesOnTable(garnish, liftM), turn);
  return restAt(moveParts(lying(garnish), turn), liftM);
}

function lying(garnish: Exclude<Garnish, { kind: 'berries' }>): GarnishPart[] {
  switch (garnish.kind) {
    case 'citrusWheel':
      return citrusWheelParts(garnish, 0);
    case 'citrusWedge':
      return moveParts(citrusWedgeParts(garnish), wedgeOnFace(radFromDeg(garnish.spanDeg) / 2));
    case 'twist':
      return twistOnTable(garnish);
    case 'olives': {
      const middleM = garnish.pickLengthM * 0.45;
      return moveParts(olivesParts(garnish, middleM), centred(garnish.pickLengthM));
    }
    case 'mint':
      return moveParts(mintParts(garnish, 0.03), ON_SIDE);
    case 'straw':
      return moveParts(strawParts(garnish), centred(garnish.lengthM));
    case 'stirrer':
      return moveParts(stirrerParts(garnish), centred(garnish.lengthM));
  }
}

const centred = (lengthM: number): RigidTransform => compose(ON_SIDE, translation([0, -lengthM / 2, 0]));

/** Turns the wedge onto the cut face at azimuth `half`. */
function wedgeOnFace(half: number): RigidTransform {
  const face = fromAxes(
    [Math.cos(half), 0, Math.sin(half)],
    [0, 1, 0],
    [-Math.sin(half), 0, Math.cos(half)],
    [0, 0, 0],
  );
  return compose(fromAxes([1, 0, 0], [0, 0, 1], [0, -1, 0], [0, 0, 0]), invert(face));
}

function twistOnTable(twist: Twist): GarnishPart[] {
  const pitchM = Math.max(twist.widthM * 1.9, 0.01);
  const turns = Math.max(0.6, twist.turns);
  const radiusM = coilRadiusM(twist.lengthM, turns);
  const coil = coilPoints([-(pitchM * turns) / 2, 0, 0], [1, 0, 0], [0, 1, 0], { radiusM, pitchM, turns });
  const curve = smoothCurve(coil);
  return stripParts(twist, curve, (t) => {
    const p: Vec3 = curve(t);
    return normalize(sub(p, [p[0], 0, 0]));
  });
}

/** Berries in a loose heap of one layer. */
function berriesOnTable(berries: Berries, liftM: number): GarnishPart[] {
  const random = createRandom(berries.seed);
  const places: Vec3[] = [];
  const gapM = berries.diameterM * 1.02;
  const spreadM = berries.diameterM * 0.75 * Math.sqrt(berries.count);
  for (let i = 0; i < berries.count; i++) {
    for (let tries = 0; tries < 200; tries++) {
      const r = (spreadM + (gapM * tries) / 40) * Math.sqrt(random());
      const phi = 2 * Math.PI * random();
      const p: Vec3 = [r * Math.cos(phi), 0, r * Math.sin(phi)];
      if (places.some((q) => Math.hypot(...sub(p, q)) < gapM)) continue;
      places.push(p);
      break;
    }
  }
  return places.flatMap((p, i) => moveParts(restAt(berryParts(berries, i), liftM), translation(p)));
}

function restAt(parts: readonly GarnishPart[], liftM: number): GarnishPart[] {
  const lowest = Math.min(...parts.map((part) => boundsOfShape(part).minM[1]));
  return moveParts(parts, Number.isFinite(lowest) ? translation([0, liftM - lowest, 0]) : IDENTITY);
}
