import { illuminanceLuxFromEv100 } from '../../camera/exposure.ts';
import { fail, ok, type Result } from '../../core/result.ts';

/** What the meter showed, in whichever way it is set. */
export type MeterDisplay =
  | { readonly unit: 'lux'; readonly value: number }
  /** Exposure value at ISO 100. */
  | { readonly unit: 'ev100'; readonly value: number }
  /** The stop for this film speed and time. */
  | { readonly unit: 'fNumber'; readonly value: number; readonly iso: number; readonly shutterS: number };

/** A reading taken on set. */
export interface OnSetReading {
  /** Where: the id of one of the meter points. */
  readonly pointId: string;
  /** Lights that were on; all of the frame's when left out. */
  readonly litFixtureIds?: readonly string[];
  readonly display: MeterDisplay;
  /** How well this meter repeats, in stops (one standard deviation); the usual when left out. */
  readonly repeatStops?: number;
}

/**
 * Lux that a display stands for. ISO 2720: N^2/t = E S / C.
 * @param meterC constant of the receptor that was on the meter, dome or flat.
 */
export function luxFromDisplay(display: MeterDisplay, meterC: number): Result<number, string> {
  if (!Number.isFinite(display.value)) return fail('The reading is not a number.');
  switch (display.unit) {
    case 'lux':
      return display.value >= 0 ? ok(display.value) : fail('A reading in lux is 0 or more.');
    case 'ev100':
      return ok(illuminanceLuxFromEv100(display.value, meterC));
    case 'fNumber': {
      const { value, iso, shutterS } = display;
      if (!(value > 0 && iso > 0 && shutterS > 0)) return fail('A stop, its ISO and its time are all over 0.');
      return ok((meterC * value * value) / (iso * shutterS));
    }
  }
}
