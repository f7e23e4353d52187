import { describe, expect, it } from 'vitest';
import { checkFrame, createCheckInput, createFrameStudy, mirrorPoint } from '../../../src/analysis/index.ts';
import { projectPoint, rayThrough } from '../../../src/camera/projection.ts';
import { createRandom } from '../../../src/core/rng.ts';
import { distance, type Vec3 } from '../../../src/core/vec3.ts';
import { camera, glossSheet, panel, scene } from '../../analysis/helpers/scenes.ts';

/* Law of reflection in a plane: Hunter, Biver and Fuqua, Light: Science and Magic, ch. 3 (from memory); figures computed. */

const TABLE = { pointM: [0, 0, 0], normal: [0, 1, 0] } as const;

describe('mirror image in a gloss plane', () => {
  it.each([
    [0.2, 0],
    [0.3, -0.1875],
    [1.2, -0.882353],
  ])('from 0.5 m up and 1.5 m off, an edge %f m up at 0.6 m beyond is seen in the table at %f', (edgeM, hitM) => {
    // y = yc + (yp - yc) hc / (hc + zp): camera yc -1.5, hc .5; panel yp .6. Here the depth axis is -z.
    const hit = mirrorPoint(TABLE, [0, 0.5, 1.5], [0, edgeM, -0.6]);
    expect(hit?.[2]).toBeCloseTo(-hitM, 6);
    expect(hit?.[1]).toBeCloseTo(0, 9);
  });

  it('shows a 2000 cd/m2 panel edge at 381.3 cd/m2 in black acrylic, 71.565 degrees off the normal', () => {
    // F(1.49) at 71.56505 degrees = .190653. The sheet's top is at y = 0; a narrow strip of panel with its middle .2 m
    // up at .6 m beyond is seen at the origin, in the middle of the frame.
    const study = createFrameStudy(
      createCheckInput(
        scene({
          pieces: [
            glossSheet({
              positionM: [0, -0.005, 0],
              finish: { type: 'gloss', reflectanceRgb: [0, 0, 0], coatIndex: 1.49 },
            }),
          ],
          fixtures: [
            panel({
              positionM: [0, 0.2, -0.6],
              aimM: [0, 0.2, 0],
              widthM: 0.6,
              heightM: 0.02,
              output: { unit: 'lumens', value: Math.PI * 2000 * 0.6 * 0.02 },
            }),
          ],
          camera: camera({ positionM: [0, 0.5, 1.5], aimM: [0, 0, 0] }),
        }),
      ),
    );
    const { tree, view } = study.tracer();
    const { originM, direction } = rayThrough(view, 0.5, 0.5);
    const arrivals: number[] = [];
    tree.follow(originM, direction, ({ luminanceNits }) => arrivals.push(luminanceNits));
    expect(arrivals).toHaveLength(1);
    expect(arrivals[0]).toBeCloseTo(381.305, 1);
  });

  it('agrees with the formula to 1 mm for 24 random placements of panel, camera and sheet', () => {
    const random = createRandom(20260117);
    const between = (low: number, high: number): number => low + (high - low) * random();
    let seen = 0;
    for (let attempt = 0; attempt < 80 && seen < 24; attempt++) {
      const sheetTopM = between(-0.2, 0.3);
      const eyeM: Vec3 = [between(-0.4, 0.4), sheetTopM + between(0.2, 0.9), between(0.8, 2)];
      const panelM: Vec3 = [between(-0.6, 0.6), sheetTopM + between(0.3, 1), between(-1.2, -0.3)];
      const plane = { pointM: [0, sheetTopM, 0], normal: [0, 1, 0] } as const;
      const middle = mirrorPoint(plane, eyeM, panelM);
      if (!middle) continue;
      const { findings, input } = checkFrame(
        scene({
          pieces: [glossSheet({ positionM: [0, sheetTopM - 0.005, 0] })],
          fixtures: [panel({ positionM: panelM, aimM: eyeM, widthM: 0.2, heightM: 0.15 })],
          camera: camera({ positionM: eyeM, aimM: middle, focusDistanceM: distance(eyeM, middle), focalLengthMm: 50 }),
        }),
        { checks: ['reflections'], remedies: false },
      );
      const finding = findings.find((f) => f.id === 'reflections:back-panel:in:sheet');
      expect(finding, `placement ${attempt}`).toBeDefined();
      if (!finding) continue;
      seen++;
      // Every chain lens -> sheet -> panel obeys the formula for the very point of the panel that it ends on.
      for (const [lens, onSheet, onPanel] of finding.where.raysM ?? []) {
        const expected = mirrorPoint(plane, lens, onPanel);
        expect(expected && distance(expected, onSheet)).toBeLessThan(0.001);
      }
      // The middle of the patch is where the formula puts the middle of the panel (perspective moves it a little).
      const at = projectPoint(input.view, middle);
      expect(finding.where.frame?.u).toBeCloseTo(at?.u ?? -1, 1);
      expect(finding.where.frame?.v).toBeCloseTo(at?.v ?? -1, 1);
    }
    expect(seen).toBe(24);
  });

  it('outlines the image within half a cell of the grid of where the formula puts the corners', () => {
    const eyeM: Vec3 = [0.1, 0.5, 1.5];
    const { findings, input, figures } = checkFrame(
      scene({
        pieces: [glossSheet({ positionM: [0, -0.005, 0] })],
        fixtures: [panel({ positionM: [0, 0.4, -0.8], aimM: [0, 0.4, 0], widthM: 0.3, heightM: 0.2 })],
        camera: camera({ positionM: eyeM, aimM: [0, 0, 0], focusDistanceM: 1.58, focalLengthMm: 50 }),
      }),
      { checks: ['reflections'], remedies: false },
    );
    const frame = findings.find((f) => f.id === 'reflections:back-panel:in:sheet')?.where.frame;
    const corners = [-0.15, 0.15].flatMap((x) => [0.3, 0.5].map((y): Vec3 => [x, y, -0.8]));
    const uvs = corners.map((corner) => projectPoint(input.view, mirrorPoint(TABLE, eyeM, corner) ?? [0, 0, 0]));
    const us = uvs.map((uv) => uv?.u ?? -1);
    const vs = uvs.map((uv) => uv?.v ?? -1);
    const { reflectionGridColumns, reflectionGridRows } = figures.reflections as Record<string, number>;
    const [cellU, cellV] = [1 / reflectionGridColumns, 1 / reflectionGridRows];
    expect(frame).toBeDefined();
    if (!frame) return;
    expect(Math.abs(frame.u - frame.widthU / 2 - Math.min(...us))).toBeLessThan(cellU / 2);
    expect(Math.abs(frame.u + frame.widthU / 2 - Math.max(...us))).toBeLessThan(cellU / 2);
    expect(Math.abs(frame.v - frame.heightV / 2 - Math.min(...vs))).toBeLessThan(cellV / 2);
    expect(Math.abs(frame.v + frame.heightV / 2 - Math.max(...vs))).toBeLessThan(cellV / 2);
  });
});
