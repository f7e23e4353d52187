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
import { frameTables, paperFrame, papersPdf } from '../../deliverables/papers.ts';
import { drawingSheets } from '../../deliverables/plan/drawingSheets.ts';
import { csvFromTable } from '../../deliverables/sheets/csv.ts';
import { findingsSheet } from '../../deliverables/sheets/findingsSheet.ts';
import { kitList } from '../../deliverables/sheets/kitList.ts';
import type { Table } from '../../deliverables/sheets/table.ts';
import { developedPng } from '../../deliverables/still/developedPng.ts';
import { checkSettingsOf } from '../../document/checkSettings.ts';
import type { Frame, Setup } from '../../document/setup.ts';
import { denoiseFilm } from '../../transport/cpu/denoiseFilm.ts';
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
    case 'kitList':
      return csvFile(ofSetup, kitList(setup.frames.map((entry) => openFrame(setup, entry))));
    case 'schedule':
    case 'meterSheet': {
      const id = kind === 'schedule' ? 'fixture-schedule' : 'meter-sheet';
      const table = frameTables(paperOf(setup, frame), options).find((entry) => entry.id === id);
      invariant(table, () => `the tables of a frame hold ${id}`);
      return csvFile(ofFrame, table);
    }
    case 'findings':
      return csvFile(
        ofSetup,
        findingsSheet(
          setup.frames.map((entry) => openFrame(setup, entry)),
          setup.frames.map((entry) => runChecks(checkInputOf(setup, entry, openFrame(setup, entry))).findings),
        ),
      );
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
