import type { Finding } from './contracts.ts';
import { outlineInFrame } from './places/inFrame.ts';
import { findPracticals } from './practicals/measurePractical.ts';
import { solvePracticalDimmer } from './solvers/dimPractical.ts';
import type { FrameStudy } from './study.ts';
import { clippingWords, gradeAbove, stopsWords } from './words.ts';

/** A channel that clips so much before the luminance does is worth naming. */
const CHANNEL_STOPS = 0.3;

/**
 * Does a bulb or lantern in the picture burn out? Luminance of its brightest part, of bulb or shade, against the subject and
 * against the channel that clips first.
 */
export function checkPractical(
  study: FrameStudy,
  { remedies = true }: { readonly remedies?: boolean } = {},
): { findings: Finding[]; figures: Record<string, unknown> } {
  const { limits, view } = study.input;
  const practicals = findPracticals(study);
  const subjectNits = study.heroNits();
  const overSubject = (nits: number): number | null =>
    subjectNits > 0 && nits > 0 ? Math.log2(nits / subjectNits) : null;
  const findings = practicals.map((practical): Finding => {
    const { fixture, brightestNits, overClippingStops: value } = practical;
    const grade = gradeAbove(value, limits.practicalCareStops, limits.practicalStopStops);
    const over = overSubject(brightestNits);
    const lumStops = Math.log2(brightestNits / study.clippingNits);
    const early = value - lumStops > CHANNEL_STOPS ? `, ${practical.channel} first` : '';
    const against = over === null ? '' : `, ${stopsWords(over)} ${over >= 0 ? 'over' : 'under'} the subject`;
    return {
      id: `practical:${fixture.id}`,
      check: 'practical',
      grade,
      subject: fixture.id,
      value,
      unit: 'stops over clipping',
      limit: grade === 'stop' ? limits.practicalStopStops : limits.practicalCareStops,
      summary: `The brightest part of ${fixture.name} is ${clippingWords(value)}${early}${against}.`,
      where: {
        ...outlineInFrame(view, practical.seenM),
        pointM: practical.brightestM,
        raysM: [[view.originM, practical.brightestM]],
      },
      remedies: remedies && grade !== 'ok' ? solvePracticalDimmer(study, practical) : [],
    };
  });
  return {
    findings,
    figures: {
      practicals: practicals.map(({ fixture, brightestNits, meanNits, overClippingStops }) => ({
        fixtureId: fixture.id,
        brightestNits,
        meanNits,
        overClippingStops,
        overSubjectStops: overSubject(brightestNits),
        meanOverSubjectStops: overSubject(meanNits),
        dimStops: fixture.dimStops,
      })),
    },
  };
}
