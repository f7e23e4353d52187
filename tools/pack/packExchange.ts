import { runChecks } from '../../src/analysis/runChecks.ts';
import { writeGlb, writeGltf } from '../../src/deliverables/exchange/gltfFiles.ts';
import { gltfFromFrame } from '../../src/deliverables/exchange/gltfFromFrame.ts';
import { setupFile } from '../../src/deliverables/exchange/setupFile.ts';
import { csvFromTable } from '../../src/deliverables/sheets/csv.ts';
import { findingsSheet } from '../../src/deliverables/sheets/findingsSheet.ts';
import type { Setup } from '../../src/document/setup.ts';
import type { PackFrame } from './openPackFrames.ts';
import type { Output } from './output.ts';

/** The setup itself, the findings of all frames, and the set of each frame as glTF, text and binary. */
export function packExchange(output: Output, setup: Setup, frames: readonly PackFrame[]): void {
  const { fileName, text } = setupFile(setup);
  output.write(`exchange/${fileName}`, text);
  const findings = frames.map((frame) => runChecks(frame.checkInput()).findings);
  const table = findingsSheet(
    frames.map(({ frameSet }) => frameSet),
    findings,
  );
  output.write(`exchange/${table.id}.csv`, csvFromTable(table));
  for (const { stem, frameSet } of frames) {
    const scene = gltfFromFrame(frameSet);
    output.write(`exchange/${stem}.glb`, writeGlb(scene));
    output.write(`exchange/${stem}.gltf`, writeGltf(scene));
  }
}
