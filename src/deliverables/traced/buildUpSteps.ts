import type { Fixture } from '../../fixtures/records.ts';
import type { FrameSet } from '../frameSet.ts';
import { recordMarks } from '../plan/recordMarks.ts';

export interface BuildUpStep {
  readonly name: string;
  /** All fixtures of the frame, those that don't take part switched off. */
  readonly fixtures: readonly Fixture[];
}

/** Each light that is on alone, then all up to it together, in the order of the setup; one light is its own build-up. */
export function buildUpSteps({ setup, scene }: Pick<FrameSet, 'setup' | 'scene'>): BuildUpStep[] {
  const marks = recordMarks(setup);
  const lit = scene.fixtures.filter(({ on }) => on);
  const withOnly = (ids: readonly string[]): Fixture[] =>
    scene.fixtures.map((fixture) => ({ ...fixture, on: fixture.on && ids.includes(fixture.id) }));
  const markOf = (id: string): string => marks.get(id) ?? '';
  return lit.flatMap(({ id, name }, i): BuildUpStep[] => {
    const alone = { name: `${markOf(id)} ${name} alone`, fixtures: withOnly([id]) };
    if (i === 0) return [alone];
    const upTo = lit.slice(0, i + 1);
    const together = upTo.map((light) => markOf(light.id)).join(' + ');
    return [
      alone,
      {
        name: i === lit.length - 1 ? `${together}, as lit` : together,
        fixtures: withOnly(upTo.map((light) => light.id)),
      },
    ];
  });
}
