import { luminanceFromRec2020 } from '../../core/color/spaces.ts';
import { miredFromKelvin } from '../../core/units.ts';
import { gelledSource, layerGain } from '../../fixtures/gain.ts';
import type { Gel } from '../../fixtures/modifierRecords.ts';
import { type Fixture, fixtureSchema } from '../../fixtures/records.ts';
import type { RecordChange, Remedy } from '../contracts.ts';
import type { FrameStudy } from '../study.ts';

/** Conversion gels, from the weakest up. */
const STRENGTHS = ['eighth', 'quarter', 'half', 'full'] as const;
const MOST_GELS = 8;
const CONVERSION_GELS = { ctb: 'CTB', cto: 'CTO' } as const;
const TINT_GELS = { minusGreen: 'minus green', plusGreen: 'plus green' } as const;
type GelWords = Partial<Record<'ctb' | 'cto' | 'minusGreen' | 'plusGreen', string>>;

/**
 * Brings one light to the colour of another: by its own setting, for a light that can be set, or by the conversion gel that
 * leaves the least difference. Worked out anew with the changed fixture; offered where it brings the two within the limit, or at
 * least to half of what parts them.
 */
export function solveSameColour(study: FrameStudy, keyId: string, otherId: string): Remedy[] {
  const { scene, limits } = study.input;
  const key = scene.fixtures.find(({ id }) => id === keyId);
  const other = scene.fixtures.find(({ id }) => id === otherId);
  if (!key || !other) return [];
  const wanted = miredFromKelvin(gelledSource(key).cctK);
  const apart = (fixture: Fixture): number => Math.abs(miredFromKelvin(gelledSource(fixture).cctK) - wanted);
  const now = apart(other);
  const isMended = (fixture: Fixture): boolean => apart(fixture) < limits.mixNoteMired || apart(fixture) <= now / 2;
  const remedies: Remedy[] = [];
  // What the lamp itself must give so that it matches once it is through its own gels.
  const shift = miredFromKelvin(gelledSource(other).cctK) - miredFromKelvin(other.cctK);
  const cctK = Math.round(1e6 / Math.max(50, wanted - shift) / 10) * 10;
  const set = tryFixture(other, { cctK });
  if (set && isMended(set))
    remedies.push({ label: `Set ${other.name} to ${cctK} K, if it can be set`, changes: change(otherId, { cctK }) });
  const gel = bestGel(other, apart, CONVERSION_GELS);
  if (gel && isMended(gel.fixture)) {
    const loss = stopsLost(other, gel.fixture);
    remedies.push({
      label: `Put ${gel.words} on ${other.name}: ${Math.round(apart(gel.fixture))} mired apart, ${loss.toFixed(1)} stops less light`,
      changes: change(otherId, { gels: gel.fixture.gels ?? [] }),
    });
  }
  return remedies;
}

/**
 * Takes the green or pink off the light that differs from the key: by its own setting where there is one, or by the green or
 * minus-green gel that leaves the least. Worked out anew with the changed fixture, offered on the same terms.
 */
export function solveSameTint(study: FrameStudy, keyId: string, otherId: string): Remedy[] {
  const { scene, limits } = study.input;
  const key = scene.fixtures.find(({ id }) => id === keyId);
  const other = scene.fixtures.find(({ id }) => id === otherId);
  if (!key || !other) return [];
  const wanted = gelledSource(key).duv;
  const apart = (fixture: Fixture): number => Math.abs(gelledSource(fixture).duv - wanted);
  const isMended = (fixture: Fixture): boolean => apart(fixture) < Math.max(limits.tintNoteDuv, apart(other) / 2);
  const remedies: Remedy[] = [];
  const duv = Math.round((other.duv + wanted - gelledSource(other).duv) * 1e4) / 1e4;
  const set = tryFixture(other, { duv });
  if (set && isMended(set))
    remedies.push({
      label: `Set the tint of ${other.name} to Duv ${duv}, if it can be set`,
      changes: change(otherId, { duv }),
    });
  const gel = bestGel(other, apart, TINT_GELS);
  if (gel && isMended(gel.fixture)) {
    const loss = stopsLost(other, gel.fixture);
    remedies.push({
      label: `Put ${gel.words} on ${other.name}: ${apart(gel.fixture).toFixed(3)} Duv apart, ${loss.toFixed(1)} stops less light`,
      changes: change(otherId, { gels: gel.fixture.gels ?? [] }),
    });
  }
  return remedies;
}

const change = (id: string, patch: Readonly<Record<string, unknown>>): RecordChange[] => [
  { op: 'update', collection: 'fixtures', id, patch },
];

function bestGel(other: Fixture, apart: (fixture: Fixture) => number, kinds: GelWords) {
  let best: { readonly fixture: Fixture; readonly words: string } | null = null;
  for (const kind of ['ctb', 'cto', 'minusGreen', 'plusGreen'] as const) {
    if (!kinds[kind]) continue;
    for (const strength of STRENGTHS) {
      const gel: Gel = { kind, strength };
      const gels = [...(other.gels ?? []), gel];
      const fixture = gels.length <= MOST_GELS ? tryFixture(other, { gels }) : null;
      if (fixture && (!best || apart(fixture) < apart(best.fixture)))
        best = { fixture, words: `${strength} ${kinds[kind]}` };
    }
  }
  return best;
}

function tryFixture(fixture: Fixture, patch: Readonly<Record<string, unknown>>): Fixture | null {
  const parsed = fixtureSchema.safeParse({ ...fixture, ...patch });
  return parsed.success ? parsed.data : null;
}

function stopsLost(before: Fixture, after: Fixture): number {
  const luminance = (fixture: Fixture): number => luminanceFromRec2020(layerGain(fixture));
  return Math.log2(luminance(before) / luminance(after));
}
