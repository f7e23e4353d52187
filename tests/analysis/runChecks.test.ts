import { describe, expect, it } from 'vitest';
import { applyChanges, checkFrame, createCheckInput, runChecks } from '../../src/analysis/index.ts';
import { block, camera, demoScene, panel, scene } from './helpers/scenes.ts';

const DARK_CHECKS = new Set(['depthOfField', 'turntable', 'heroTime', 'powerAndRigging']);
const ORDER = ['stop', 'care', 'note', 'ok'];

describe('a run of the checks', () => {
  it('puts the worst grade first and gives every finding an id of its own', () => {
    const { findings } = checkFrame(demoScene(), { remedies: false });
    const places = findings.map(({ grade }) => ORDER.indexOf(grade));
    expect([...places].sort((a, b) => a - b)).toEqual(places);
    expect(new Set(findings.map(({ id }) => id)).size).toBe(findings.length);
    expect(findings.length).toBeGreaterThan(3);
  });

  it('runs only the checks that are asked for', () => {
    const input = createCheckInput(demoScene());
    const { findings, figures } = runChecks(input, { checks: ['flare'], remedies: false });
    expect(Object.keys(figures)).toEqual(['flare']);
    expect(new Set(findings.map(({ check }) => check))).toEqual(new Set(['flare']));
  });

  it('finds the same without remedies as with them', () => {
    const input = createCheckInput(demoScene());
    const strip = (findings: readonly object[]) => findings.map((finding) => ({ ...finding, remedies: [] }));
    expect(strip(runChecks(input).findings)).toEqual(runChecks(input, { remedies: false }).findings);
  });

  it('answers for an empty set, for no light, and for a lens that looks away, with figures that are all finite', () => {
    for (const of of [
      scene({ pieces: [], fixtures: [] }),
      scene({ fixtures: [] }),
      scene({ fixtures: [panel({ on: false })] }),
      scene({ camera: camera({ aimM: [0, 5, 9] }) }),
      scene({ pieces: [block()], subject: { pieceId: 'gone', meterPointM: [0, 0.1, 0] } }),
    ]) {
      const { figures, findings } = checkFrame(of);
      const text = JSON.stringify({ figures, findings });
      expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(JSON.parse(text))));
      for (const { value } of findings) expect(Number.isFinite(value)).toBe(true);
    }
  });

  it('takes the gains that it is given instead of the switches of the scene', () => {
    const of = scene();
    const dark = checkFrame(of, { layerGains: new Float32Array(3), remedies: false });
    // What has nothing to do with light is said in the dark too.
    const ofLight = dark.findings.filter(({ check }) => !DARK_CHECKS.has(check));
    expect(ofLight.map(({ id }) => id)).toEqual(['exposure:incident']);
    expect(dark.findings[0].summary).toContain('No light');
  });

  it('refuses a change that no document could hold', () => {
    const change = { op: 'update', collection: 'fixtures', id: 'back-panel', patch: { widthM: -1 } } as const;
    expect(() => applyChanges(scene(), [change])).toThrow();
  });
});
