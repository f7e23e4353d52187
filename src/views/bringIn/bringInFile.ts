import { newId } from '../../document/defaults.ts';
import { readLightData } from '../../fixtures/lightData/index.ts';
import { fixtureFromDistribution } from '../../fixtures/measuredFixture.ts';
import { chooseFile } from '../session/chooseFile.ts';
import { documentStore, selectRecord, showNotice } from '../session/index.ts';
import { freeName } from '../shelf/freeName.ts';
import { bringInStore } from './bringInStore.ts';

const BODY = /\.(glb|gltf)$/i;
const LIGHT = /\.(ies|ldt)$/i;
/** What the file field offers. */
export const BRING_IN_TYPES = '.glb,.gltf,.ies,.ldt';
const LIGHT_START_M: [number, number, number] = [0.7, 0.9, -0.2];

export const canBringIn = (fileName: string): boolean => BODY.test(fileName) || LIGHT.test(fileName);

/** Takes a bottle, a prop or measured light from a file into the set. What is wrong is said in the message strip. */
export async function bringInFile(file: File): Promise<void> {
  try {
    if (LIGHT.test(file.name)) bringInLight(nameOf(file), await file.text());
    else await bringInBody(nameOf(file), await file.arrayBuffer());
  } catch {
    showNotice({ tone: 'trouble', text: `"${file.name}" could not be read: choose it again.` });
  }
}

/** Asks for a file, then takes it in. */
export function pickToBringIn(): void {
  void chooseFile(BRING_IN_TYPES).then((file) => file && bringInFile(file));
}

const nameOf = (file: File): string =>
  file.name
    .replace(/\.[^.]*$/, '')
    .replace(/[_-]+/g, ' ')
    .trim()
    .slice(0, 60) || 'From a file';

async function bringInBody(name: string, bytes: ArrayBuffer): Promise<void> {
  // The reader of glTF is large and seldom wanted.
  const { readBody } = await import('./readBody.ts');
  const body = await readBody(bytes);
  if (body.ok) bringInStore.setState({ waiting: { name, body: body.value } });
  else showNotice({ tone: 'trouble', text: `${name} cannot be brought in.`, detail: body.error });
}

function bringInLight(name: string, text: string): void {
  const read = readLightData(text);
  if (!read.ok) {
    showNotice({ tone: 'trouble', text: `${name} cannot be brought in.`, detail: read.error.message });
    return;
  }
  const { setup } = documentStore.getState();
  const { fixture, diagnostics } = fixtureFromDistribution(read.value, {
    id: newId(setup, 'fixture'),
    name: freeName(setup, name),
    positionM: LIGHT_START_M,
    aimM: [...setup.subject.meterPointM],
  });
  const added = documentStore.apply(`Bring in ${fixture.name}`, [
    { op: 'add', collection: 'fixtures', record: fixture },
  ]);
  if (!added.ok) return;
  selectRecord(fixture.id);
  const doubts = diagnostics.map(({ message }) => message).join(' ');
  showNotice({
    tone: doubts ? 'trouble' : 'done',
    text: `Brought in ${fixture.name}.`,
    ...(doubts ? { detail: doubts } : {}),
  });
}
