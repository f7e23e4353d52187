import { strToU8, zipSync } from 'fflate';
import { createCheckInput } from '../../analysis/checkInput.ts';
import type { CheckInput } from '../../analysis/contracts.ts';
import { runChecks } from '../../analysis/runChecks.ts';
import { assertNever, invariant } from '../../core/result.ts';
import { clientPage } from '../../deliverables/clientPage/clientPage.ts';
import { writeGlb } from '../../deliverables/exchange/gltfFiles.ts';
import { gltfFromFrame } from '../../deliverables/exchange/gltfFromFrame.ts';
import { fileStem, setupFile } from '../../deliverables/exchange/setupFile.ts';
import { type FrameSet, openFrameSet } from '../../deliverables/frameSet.ts';
import { PAPER_SIZES } from '../../deliverables/paper/paperSize.ts';
import { svgFromSheet } from '../../deliverables/paper/svgFromSheet.ts';
import { frameTables, paperFrame, papersPdf, setupTables } from '../../deliverables/papers.ts';
import { drawingSheets } from '../../deliverables/plan/drawingSheets.ts';
import { csvFromTable } from '../../deliverables/sheets/csv.ts';
import { findingsSheet } from '../../deliverables/sheets/findingsSheet.ts';
import type { Table } from '../../deliverables/sheets/table.ts';
import { developedPng } from '../../deliverables/still/developedPng.ts';
import { checkSettingsOf } from '../../document/checkSettings.ts';
import type { Frame, Setup } from '../../document/setup.ts';
import { denoiseFilm } from '../../transport/cpu/denoiseFilm.ts';
import type { TableKind } from '../../views/session/index.ts';
import type { HandOverFile, HandOverRequest, TracedPicture } from './handOverProtocol.ts';

/**
 * One file for crew, client or hire house. What is of one frame is of the frame that the request names.
 * Takes seconds where a meter is read or checks are run, so it belongs off the page's thread.
 */
export async function makeHandOver(request: HandOverRequest): Promise<HandOverFile> {
  const { kind, setup, frameId, date } = request;
  const frame = setup.frames.find(({ id }) => id === frameId) ?? setup.frames[0];
  const ofSetup = fileStem(setup.title);
  const ofFrame = `${ofSetup}-${fileStem(frame.name)}`;
  const options = { date };
  switch (kind) {
    case 'papersA4':
    case 'papersLetter': {
      const paper = kind === 'papersA4' ? 'a4' : 'letter';
      const frames = setup.frames.map((entry) => paperOf(setup, entry));
      const pdf = await papersPdf(frames, paper, { ...options, madeOn: new Date(`${date}T00:00:00Z`) });
      return { fileName: `${ofSetup}-papers-${paper}.pdf`, mimeType: 'application/pdf', content: pdf };
    }
    case 'plan': {
      const sheets = drawingSheets(openFrame(setup, frame), { ...options, paper: PAPER_SIZES.a4 });
      const plan = sheets.find(({ side }) => side === 'plan');
      invariant(plan, () => 'every frame has a plan');
      return { fileName: `${ofFrame}-plan.svg`, mimeType: 'image/svg+xml', content: svgFromSheet(plan.sheet) };
    }
    case 'findings':
      return csvFile(ofSetup, findingsOf(setup));
    case 'schedule':
    case 'gripSchedule':
    case 'meterSheet':
    case 'eachLight':
      return csvFile(ofFrame, tableNamed(frameTables(paperOf(setup, frame), options), kind));
    case 'kitList':
    case 'stands':
    case 'power':
    case 'circuits':
    case 'buildOrder':
    case 'shotList':
    case 'heroClock':
    case 'cautions': {
      const frames = setup.frames.map((entry) => paperOf(setup, entry));
      return csvFile(ofSetup, tableNamed(setupTables(frames, options), kind));
    }
    case 'tables':
      return { fileName: `${ofSetup}-tables.zip`, mimeType: 'application/zip', content: allTables(setup, options) };
    case 'client':
      return {
        fileName: `${ofFrame}-client.html`,
        mimeType: 'text/html',
        content: clientPage({
          setup,
          date,
          frames: [clientFrame(frame, request.picture)],
          ...(request.fontWoff2 ? { fontWoff2: request.fontWoff2 } : {}),
        }),
      };
    case 'setup': {
      const { fileName, text } = setupFile(setup);
      return { fileName, mimeType: 'application/json', content: text };
    }
    case 'gltf': {
      const content = writeGlb(gltfFromFrame(openFrame(setup, frame)));
      return { fileName: `${ofFrame}.glb`, mimeType: 'model/gltf-binary', content };
    }
    default:
      return assertNever(kind);
  }
}

/** What each table is called in its file's name. */
const TABLE_IDS: Readonly<Record<TableKind, string>> = {
  schedule: 'fixture-schedule',
  gripSchedule: 'grip-schedule',
  meterSheet: 'meter-sheet',
  eachLight: 'meter-sheet-each-light',
  kitList: 'kit-list',
  stands: 'stands-and-weights',
  power: 'power',
  circuits: 'circuits',
  buildOrder: 'build-order',
  shotList: 'shot-list',
  heroClock: 'hero-clock',
  cautions: 'cautions',
  findings: 'findings',
};

function tableNamed(tables: readonly Table[], kind: TableKind): Table {
  const table = tables.find(({ id }) => id === TABLE_IDS[kind]);
  if (!table) throw new Error(MISSING_WORDS[kind] ?? 'this setup gives no such table.');
  return table;
}

/** Why a table may not be there. */
const MISSING_WORDS: Partial<Record<TableKind, string>> = {
  gripSchedule: 'there is no flag, card or cloth in this frame.',
  eachLight: 'no light is on in this frame.',
  heroClock: 'no hero drink has ice.',
};

function findingsOf(setup: Setup): Table {
  const frames = setup.frames.map((entry) => openFrame(setup, entry));
  return findingsSheet(
    frames,
    frames.map((frameSet) => runChecks(checkInputOf(setup, frameSet.frame, frameSet)).findings),
  );
}

/** Every table of every frame and of the setup, as CSV in one archive. */
function allTables(setup: Setup, options: { readonly date: string }): Uint8Array {
  const papers = setup.frames.map((entry) => paperOf(setup, entry));
  const files = new Map<string, Uint8Array>();
  const add = (stem: string, table: Table): void => {
    files.set(`${stem}${table.id}.csv`, strToU8(csvFromTable(table)));
  };
  papers.forEach((paper, i) => {
    const stem = `${i + 1}-${fileStem(paper.frameSet.frame.name)}-`;
    for (const table of frameTables(paper, options)) add(stem, table);
  });
  for (const table of setupTables(papers, options)) add('', table);
  add('', findingsOf(setup));
  return zipSync(Object.fromEntries(files));
}

function openFrame(setup: Setup, frame: Frame): FrameSet {
  const opened = openFrameSet(setup, frame.id);
  invariant(opened.ok, () => 'the open setup is valid, so its frames resolve');
  return opened.value;
}

function checkInputOf(setup: Setup, frame: Frame, { scene }: FrameSet): CheckInput {
  const { frameId, limits, marks, room, capture } = checkSettingsOf(setup, frame);
  return { ...createCheckInput(scene, limits), frameId, marks, room, capture };
}

function paperOf(setup: Setup, frame: Frame) {
  const frameSet = openFrame(setup, frame);
  return paperFrame(frameSet, checkInputOf(setup, frame, frameSet));
}

const csvFile = (stem: string, table: Table): HandOverFile => ({
  fileName: `${stem}-${table.id}.csv`,
  mimeType: 'text/csv',
  content: csvFromTable(table),
});

/** The traced picture without its grain; a smoothed copy that is there already is taken. */
function clientFrame(frame: Frame, picture: TracedPicture | undefined) {
  invariant(picture, () => 'a client page is asked for with a traced picture');
  const { film, smooth, layerGains, camera } = picture;
  const shown = smooth ?? denoiseFilm(film, layerGains);
  return {
    png: developedPng([{ film: shown, layerGains }], camera),
    widthPx: film.widthPx,
    heightPx: film.heightPx,
    name: frame.name,
    notes: frame.kind === 'turn' ? ['Filmed through one round of the turntable.'] : [],
    alternatives: [],
  };
}
