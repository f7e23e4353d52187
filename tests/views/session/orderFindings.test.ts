import { describe, expect, it } from 'vitest';
import type { CheckName, Finding, Grade } from '../../../src/analysis/contracts.ts';
import { countAsking, groupFindings } from '../../../src/views/session/orderFindings.ts';

const finding = (id: string, check: CheckName, grade: Grade, inFrame = true): Finding => ({
  id,
  check,
  grade,
  subject: 'light',
  value: 1,
  unit: 'stops',
  limit: 1,
  summary: id,
  where: inFrame ? { frame: { u: 0.5, v: 0.5, widthU: 0.1, heightV: 0.1 } } : {},
  remedies: [],
});

const FINDINGS = [
  finding('fine', 'exposure', 'ok'),
  finding('sheen', 'reflections', 'note'),
  finding('veil', 'flare', 'care'),
  finding('panel in base', 'reflections', 'stop'),
  finding('no place', 'reflections', 'care', false),
];

describe('findings in the list', () => {
  it('puts the group with the worst grade first, and the worst finding first in it', () => {
    const groups = groupFindings(FINDINGS);
    expect(groups.map((group) => group.check)).toEqual(['reflections', 'flare', 'exposure']);
    expect(groups[0].findings.map((entry) => entry.finding.id)).toEqual(['panel in base', 'no place', 'sheen']);
  });

  it('numbers in list order what asks for something and has a place, and nothing else', () => {
    const numbers = groupFindings(FINDINGS)
      .flatMap((group) => group.findings)
      .map((entry) => [entry.finding.id, entry.number]);
    expect(numbers).toEqual([
      ['panel in base', 1],
      ['no place', null],
      ['sheen', null],
      ['veil', 2],
      ['fine', null],
    ]);
  });

  it('counts care and stop as asking for something, notes not', () => {
    expect(countAsking(FINDINGS)).toBe(3);
  });
});
