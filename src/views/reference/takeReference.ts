import { closeFrameTool, openFrameTool } from '../frame/tools/frameToolsStore.ts';
import { chooseFile } from '../session/chooseFile.ts';
import { editFrame, showNotice } from '../session/index.ts';
import { readReference } from './photoFile.ts';

/** Makes a picture the reference of the frame on screen, and shows it; says so when it cannot. */
export async function takeReference(file: File): Promise<void> {
  const read = await readReference(file);
  if (!read.ok) {
    showNotice({ tone: 'trouble', text: read.error.message, detail: 'The frame is as it was.' });
    return;
  }
  if (editFrame('Reference photo', { reference: { ...read.value } })) openFrameTool('reference');
}

/** Asks for a picture file. */
export function chooseReference(): void {
  void chooseFile('image/*').then((file) => file && takeReference(file));
}

export function removeReference(): void {
  editFrame('Take the reference away', { reference: null });
  closeFrameTool('reference');
}
