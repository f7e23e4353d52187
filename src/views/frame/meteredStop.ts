import { fNumberText } from './exposureScales.ts';

/** What the incident meter says, from the figures of the exposure check; '' until the checks have spoken. */
export function describeMeteredStop(figures: Readonly<Record<string, unknown>>): string {
  const { meterFNumber } = figures;
  return typeof meterFNumber === 'number' && Number.isFinite(meterFNumber)
    ? `Meter says ${fNumberText(meterFNumber)}`
    : '';
}
