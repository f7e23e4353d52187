import { readdirSync, readFileSync } from 'node:fs';
import { createCheckInput } from '../../src/analysis/index.ts';
import { type CheckSettings, checkSettingsOf } from '../../src/document/checkSettings.ts';
import { parseSetup } from '../../src/document/codec.ts';
import { resolveFrame } from '../../src/document/resolveFrame.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';

const SETUPS = new URL('../../assets/setups/', import.meta.url);

export interface DemoFrame {
  readonly name: string;
  readonly scene: FrameScene;
  readonly settings: CheckSettings;
  readonly primitiveCount: number;
}

/** The frame of the demos, as they should be, with the most primitives. */
export function findLargestDemo(): DemoFrame {
  const frames = readdirSync(SETUPS)
    .filter((file) => file.endsWith('.json') && !file.endsWith('-wrong.json'))
    .flatMap((file): DemoFrame[] => {
      const opened = parseSetup(readFileSync(new URL(file, SETUPS), 'utf8'));
      if (!opened.ok) throw new Error(opened.error.message);
      const { setup } = opened.value;
      return setup.frames.map((frame) => {
        const scene = resolveFrame(setup, frame.id);
        if (!scene.ok) throw new Error(scene.error[0].message);
        const { primitiveCount } = createCheckInput(scene.value).query.world;
        return {
          name: `${setup.title}, ${frame.name}`,
          scene: scene.value,
          settings: checkSettingsOf(setup, frame),
          primitiveCount,
        };
      });
    });
  return frames.reduce((most, frame) => (frame.primitiveCount > most.primitiveCount ? frame : most));
}
