/**
 * Writes the sample light-data files of assets/light-data from formulas. The lights are invented: no maker's data is in
 * them. With --check it writes nothing and exits 1 when one of them is not up to date.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { radFromDeg } from '../src/core/units.ts';
import type { LuminousOpening, PlaneSymmetry } from '../src/fixtures/lightData/measuredDistribution.ts';
import { writeEulumdat, writeLm63 } from '../src/fixtures/lightData/writeLightData.ts';

const FOLDER_URL = new URL('../assets/light-data/', import.meta.url);

export interface InventedLight {
  readonly fileName: string;
  readonly name: string;
  /** Intensity, cd, toward (theta, phi), radians. */
  readonly intensityCd: (thetaRad: number, phiRad: number) => number;
  readonly thetaDeg: readonly number[];
  readonly phiDeg: readonly number[];
  readonly symmetry: PlaneSymmetry;
  readonly openingM: LuminousOpening;
  readonly wattsW: number;
}

/** 0, step, ... up to and with `to`. */
const range = (from: number, to: number, step: number): number[] =>
  Array.from({ length: Math.round((to - from) / step) + 1 }, (_, i) => from + i * step);

/** Half of the lobe's width of the wall washer, and where it looks: toward C90. */
const LOBE = { widthRad: radFromDeg(24), thetaRad: radFromDeg(35), phiRad: Math.PI / 2 };

export const INVENTED_LIGHTS: readonly InventedLight[] = [
  {
    fileName: 'narrow-spot.ies',
    name: 'Invented narrow spot, alike all round',
    // A pool with a beam of 16 degrees and a little spill to 90.
    intensityCd: (theta) =>
      20000 * 2 ** -((Math.tan(Math.min(theta, 1.57)) / Math.tan(radFromDeg(8))) ** 3) +
      80 * Math.max(0, Math.cos(theta)) ** 2,
    thetaDeg: [...range(0, 30, 0.5), ...range(32.5, 90, 2.5)],
    phiDeg: [0, 360],
    symmetry: 'axial',
    openingM: { shape: 'disc', alongC0M: 0.12, alongC90M: 0.12, heightM: 0 },
    wattsW: 40,
  },
  {
    fileName: 'wall-washer.ldt',
    name: 'Invented wall washer, leans 35 degrees toward C90',
    intensityCd: (theta, phi) => {
      const cosOff =
        Math.sin(theta) * Math.sin(LOBE.thetaRad) * Math.cos(phi - LOBE.phiRad) +
        Math.cos(theta) * Math.cos(LOBE.thetaRad);
      const off = Math.acos(Math.max(-1, Math.min(1, cosOff)));
      const down = Math.max(0, Math.cos(theta));
      return 1800 * Math.exp(-((off / LOBE.widthRad) ** 2)) * Math.sqrt(down) + 200 * down;
    },
    thetaDeg: range(0, 90, 2.5),
    phiDeg: range(0, 360, 7.5),
    symmetry: 'c90c270',
    openingM: { shape: 'rectangle', alongC0M: 0.3, alongC90M: 0.06, heightM: 0 },
    wattsW: 24,
  },
  {
    fileName: 'globe.ies',
    name: 'Invented globe, a little stronger downward',
    // 4 pi x 0.8 x 64 = 643.4 lm: the cosine takes from above what it gives below.
    intensityCd: (theta) => 64 * (0.8 + 0.2 * Math.cos(theta)),
    thetaDeg: range(0, 180, 5),
    phiDeg: [0, 360],
    symmetry: 'axial',
    openingM: { shape: 'sphere', alongC0M: 0.3, alongC90M: 0.3, heightM: 0.3 },
    wattsW: 9,
  },
];

/** Text of the sample file of one light. */
export function writeInventedLight(light: InventedLight): string {
  const thetaRad = light.thetaDeg.map(radFromDeg);
  const phiRad = light.phiDeg.map(radFromDeg);
  const table = {
    thetaRad,
    phiRad,
    intensityCd: phiRad.map((phi) => thetaRad.map((theta) => light.intensityCd(theta, phi))),
    symmetry: light.symmetry,
    openingM: light.openingM,
    wattsW: light.wattsW,
  };
  const labels = { name: light.name, maker: 'nobody: written from a formula', date: 'none' };
  return light.fileName.endsWith('.ldt') ? writeEulumdat(table, labels) : writeLm63(table, labels);
}

export const sampleUrl = (light: InventedLight): URL => new URL(light.fileName, FOLDER_URL);

function main(): void {
  const isCheck = process.argv.includes('--check');
  if (!isCheck) mkdirSync(FOLDER_URL, { recursive: true });
  for (const light of INVENTED_LIGHTS) {
    const text = writeInventedLight(light);
    if (!isCheck) {
      writeFileSync(sampleUrl(light), text);
      console.log(`wrote assets/light-data/${light.fileName}`);
    } else if (readFileSync(sampleUrl(light), 'utf8') !== text) {
      console.error(`assets/light-data/${light.fileName} is not up to date. Run: npx tsx tools/gen-light-data.ts`);
      process.exitCode = 1;
    }
  }
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) main();
