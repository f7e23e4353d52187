import { describe, expect, it } from 'vitest';
import type { Finding } from '../../../src/analysis/contracts.ts';
import { describeEvidence, describePlace } from '../../../src/views/checks/describeEvidence.ts';

const finding = (where: Finding['where']): Finding => ({
  id: 'f',
  check: 'reflections',
  grade: 'care',
  subject: 's',
  value: 1,
  unit: 'stops',
  limit: null,
  summary: '',
  where,
  remedies: [],
});

describe('the proof of a finding in words', () => {
  // 3-4-5: from (0, 3, 4) to the origin is 5 m, from there to (0, 1, 0) another 1 m.
  it('gives a ray over one surface of 5 m and 1 m as 6.00 m', () => {
    const raysM = [
      [
        [0, 3, 4],
        [0, 0, 0],
        [0, 1, 0],
      ],
    ] as const;
    expect(describeEvidence(finding({ raysM }))).toBe('ray over one surface, 6.00 m');
  });

  it('says where against the foot of the hero, in whole centimetres', () => {
    expect(describePlace([0.12, 0.04, -0.3])).toBe('12 cm right, 4 cm up, 30 cm to the back');
    expect(describePlace([-0.5, 0.001, 0.02])).toBe('50 cm left, 2 cm to the front');
    expect(describePlace([0, 0, 0])).toBe('at the foot of the hero');
  });

  it('says nothing where nothing can be shown', () => {
    expect(describeEvidence(finding({}))).toBe('');
  });
});
