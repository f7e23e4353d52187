import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { type ClientFrame, clientPage } from '../../src/deliverables/clientPage/clientPage.ts';
import type { ScenePictures } from '../../src/deliverables/traced/scenePictures.ts';
import type { Setup } from '../../src/document/setup.ts';
import type { Alternative } from './alternatives.ts';
import type { PackFrame } from './openPackFrames.ts';
import type { Output } from './output.ts';

/** The client's page; other setups give the alternatives of the frames that have the same id or name. */
export async function packClient(
  output: Output,
  setup: Setup,
  frames: readonly PackFrame[],
  alternatives: readonly Alternative[],
  pictures: ScenePictures,
  { date, showNotes }: { readonly date: string; readonly showNotes: boolean },
): Promise<void> {
  const shown: ClientFrame[] = [];
  for (const { frameSet } of frames) {
    const { frame } = frameSet;
    const others = [];
    for (const { title, frameOf } of alternatives) {
      const match = frameOf(frame);
      if (match) others.push({ ...(await pictures.ofFrame(match)), name: title });
    }
    shown.push({
      ...(await pictures.ofFrame(frameSet)),
      name: frame.name,
      notes: frame.kind === 'turn' ? ['Filmed through one round of the turntable.'] : [],
      alternatives: others,
    });
  }
  output.write('client.html', clientPage({ setup, date, showNotes, frames: shown, fontWoff2: readFace() }));
}

/** Latin letters of the project's face, to go inside the page. */
const readFace = (): Uint8Array =>
  readFileSync(
    createRequire(import.meta.url).resolve(
      '@fontsource-variable/spline-sans/files/spline-sans-latin-wght-normal.woff2',
    ),
  );
