import { type CheckInput, createFrameStudy, runChecks } from '../../src/analysis/index.ts';
import { type Comparison, compareFrame } from './compareFrame.ts';
import { judgeFrame } from './judgeFrame.ts';
import { type LongFrame, type LongFrameOptions, traceLongFrame } from './longFrame.ts';

export interface AgainstTraceOptions {
  readonly seed: number;
  readonly frameSamples: number;
  readonly imageSamples: number;
  /** Also follow paths that are fainter or longer than the check says it follows. */
  readonly deep?: boolean;
}

/** Pixels of the traced frame: as many as the check has cells, so that both say 'a patch' of the same size. */
const PIXELS = 14400;

/** As far as the check follows chains (docs/checks/reflections.md); and much further. */
const AS_STATED = { leastShare: 1e-4, mostEvents: 12 };
const DEEP = { leastShare: 1e-6, mostEvents: 24 };

/** Traces a frame for comparison, as many pixels as the check has cells. */
export const traceForCheck = (input: CheckInput, options: AgainstTraceOptions): LongFrame =>
  traceLongFrame(longFrameOptions(input, options));

export function longFrameOptions(
  { query, view, layerGains }: CheckInput,
  { deep = false, ...options }: AgainstTraceOptions,
): LongFrameOptions {
  const aspect = view.tanHalfWidth / view.tanHalfHeight;
  const widthPx = Math.round(Math.sqrt(PIXELS * aspect));
  const heightPx = Math.round(widthPx / aspect);
  return { world: query.world, view, layerGains, widthPx, heightPx, ...(deep ? DEEP : AS_STATED), ...options };
}

/** Says of each reflection whether the check finds it, misses it, or tells of one that isn't there. */
export function checkAgainstTrace(input: CheckInput, frame: LongFrame): Comparison[] {
  const images = judgeFrame(frame, input, createFrameStudy(input).blackNits);
  const { findings } = runChecks(input, { checks: ['reflections'], remedies: false, sweep: false });
  return compareFrame(findings, images, frame);
}
