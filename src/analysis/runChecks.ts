import type { FrameScene } from '../scene/setModel.ts';
import { ALL_CHECKS } from './allChecks.ts';
import { checkBackground } from './background.ts';
import { createCheckInput } from './checkInput.ts';
import { checkColourMix } from './colourMix.ts';
import type { CheckInput, CheckLimits, CheckName, CheckResult, Finding } from './contracts.ts';
import { checkDepthOfField } from './depthOfField.ts';
import { checkExposure } from './exposure.ts';
import { checkFamilyOfAngles } from './familyOfAngles.ts';
import { checkFlare } from './flare.ts';
import { createFrameStudy } from './frameStudy.ts';
import { checkGlow } from './glow.ts';
import { checkHeroTime } from './heroTime.ts';
import type { CheckCache } from './keep/checkCache.ts';
import { checkLightDirection } from './lightDirection.ts';
import { applyMarks } from './marks.ts';
import { checkPowerAndRigging } from './powerAndRigging.ts';
import { checkPractical } from './practical.ts';
import { checkRatios } from './ratios.ts';
import { checkReflections } from './reflections.ts';
import { checkShadowMakers } from './shadowMakers.ts';
import { checkSpillAndShadows } from './spillAndShadows.ts';
import type { FrameStudy } from './study.ts';
import { checkThingsInFrame } from './thingsInFrame.ts';
import { checkTurntable } from './turntable.ts';
import { gradeOrder } from './words.ts';

export interface RunChecksOptions {
  /** Which checks to run; all when left out. */
  readonly checks?: readonly CheckName[];
  /** Find and try out remedies, which builds the set anew for each; true when left out. */
  readonly remedies?: boolean;
  /** Follow highlights through a turn of the table, which builds the set anew for each step; true when left out. */
  readonly sweep?: boolean;
  /** What earlier runs over the same frame left, and this one leaves for the next; results are the same without it. */
  readonly cache?: CheckCache;
  /** Asked between checks; true ends the run. */
  readonly shouldStop?: () => boolean;
}

interface CheckAnswer {
  readonly findings: readonly Finding[];
  readonly figures: Readonly<Record<string, unknown>>;
}
type Check = (study: FrameStudy, remedies: boolean, sweep: boolean) => CheckAnswer;
const CHECKS: Readonly<Record<CheckName, Check>> = {
  reflections: (study, remedies) => checkReflections(study, { remedies }),
  familyOfAngles: (study, remedies) => checkFamilyOfAngles(study, { remedies }),
  thingsInFrame: (study) => checkThingsInFrame(study),
  flare: (study, remedies) => checkFlare(study, { remedies }),
  exposure: (study) => checkExposure(study),
  ratios: (study, remedies) => checkRatios(study, { remedies }),
  background: (study, remedies) => checkBackground(study, { remedies }),
  spillAndShadows: (study, remedies) => checkSpillAndShadows(study, { remedies }),
  shadowMakers: (study, remedies) => checkShadowMakers(study, { remedies }),
  lightDirection: (study, remedies) => checkLightDirection(study, { remedies }),
  depthOfField: (study, remedies) => checkDepthOfField(study, { remedies }),
  practical: (study, remedies) => checkPractical(study, { remedies }),
  glow: (study, remedies) => checkGlow(study, { remedies }),
  colourMix: (study, remedies) => checkColourMix(study, { remedies }),
  turntable: (study, remedies, sweep) => checkTurntable(study, { remedies, sweep }),
  heroTime: (study) => checkHeroTime(study),
  powerAndRigging: (study) => checkPowerAndRigging(study),
};
/**
 * Runs the checks over one frame. Deterministic: the same input gives the same findings to the last digit.
 *
 * @returns findings, worst grade first, then by check and id; figures under the name of their check; nothing but `stopped`
 * when it was told to stop
 */
export function runChecks(input: CheckInput, { shouldStop, ...options }: RunChecksOptions = {}): CheckResult {
  const steps = checkSteps(input, options);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    if (shouldStop?.()) return { findings: [], figures: {}, stopped: true };
  }
}

/**
 * The same in steps, for a thread that has other things to hear of meanwhile: yields before each check that it will run, and before
 * each large part that several checks share. Leaving it undone is fine; the cache stays good.
 */
export function* checkSteps(
  input: CheckInput,
  { checks = ALL_CHECKS, remedies = true, sweep = true, cache }: Omit<RunChecksOptions, 'shouldStop'> = {},
): Generator<CheckName, CheckResult> {
  const study = createFrameStudy(input, cache);
  const findings: Finding[] = [];
  const figures: Record<string, unknown> = {};
  if (checks.includes('reflections')) {
    yield 'reflections';
    study.patches();
    yield 'reflections';
    study.grid();
  }
  for (const name of ALL_CHECKS) {
    if (!checks.includes(name)) continue;
    yield name;
    const answer = CHECKS[name](study, remedies, sweep);
    findings.push(...answer.findings);
    figures[name] = answer.figures;
  }
  const marked = applyMarks(findings, input.marks ?? []);
  marked.sort(
    (a, b) =>
      gradeOrder(a.grade) - gradeOrder(b.grade) ||
      ALL_CHECKS.indexOf(a.check) - ALL_CHECKS.indexOf(b.check) ||
      (a.id < b.id ? -1 : 1),
  );
  return { findings: marked, figures };
}

export interface CheckFrameOptions
  extends RunChecksOptions,
    Pick<CheckInput, 'frameId' | 'marks' | 'room' | 'capture'> {
  readonly limits?: Partial<CheckLimits>;
  /** layers x 3 working RGB; switch, dimmer and colour of the scene's fixtures when left out. */
  readonly layerGains?: Float32Array;
}

/** Builds and compiles a frame's set, then runs the checks over it. */
export function checkFrame(scene: FrameScene, options: CheckFrameOptions = {}): CheckResult & { input: CheckInput } {
  const { frameId, marks, room, capture } = options;
  const built = createCheckInput(scene, options.limits, options.layerGains);
  const input: CheckInput = { ...built, frameId, marks, room, capture };
  return { input, ...runChecks(input, options) };
}
