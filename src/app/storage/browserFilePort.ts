import { fail, ok, type Result } from '../../core/result.ts';
import { chooseFile } from '../../views/session/chooseFile.ts';
import { type FileFault, type FilePort, fileFromDrop, type SetupFileTarget } from './fileIo.ts';

/**
 * The part of the File System Access API that is used; the type library does not hold it because not every browser
 * has it. https://wicg.github.io/file-system-access/
 */
interface FilePickers {
  showOpenFilePicker(options: object): Promise<FileSystemFileHandle[]>;
  showSaveFilePicker(options: object): Promise<FileSystemFileHandle>;
}

const FILE_TYPES = [{ description: 'Setup', accept: { 'application/json': ['.json'] } }];

const findPickers = (page: Window): FilePickers | null => {
  const offers = (name: string): boolean => typeof Reflect.get(page, name) === 'function';
  return offers('showOpenFilePicker') && offers('showSaveFilePicker') ? (page as Window & FilePickers) : null;
};

/** Files by way of the File System Access API where the browser has it, else by a file field and downloads. */
export function createBrowserFilePort(page: Window = window): FilePort {
  const download: FilePort['download'] = (name, text) => {
    try {
      const url = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
      const link = page.document.createElement('a');
      link.href = url;
      link.download = name;
      link.click();
      // The browser takes the blob over in the click; some do so only once the task has ended.
      setTimeout(() => URL.revokeObjectURL(url), 60_000);
      return ok(undefined);
    } catch (error) {
      return fail(fileFaultFrom(error));
    }
  };
  const pickers = findPickers(page);
  if (!pickers) return { download, pickFile: () => pickByField(page) };
  return {
    download,
    async pickFile() {
      const handle = await unlessCancelled(async () => {
        const [first] = await pickers.showOpenFilePicker({ types: FILE_TYPES });
        return first ?? null;
      });
      if (!handle.ok || handle.value === null) return handle.ok ? ok(null) : handle;
      try {
        return ok({ file: await handle.value.getFile(), target: targetFrom(handle.value) });
      } catch (error) {
        return fail(fileFaultFrom(error));
      }
    },
    async pickTarget(suggestedName) {
      const handle = await unlessCancelled(() => pickers.showSaveFilePicker({ types: FILE_TYPES, suggestedName }));
      if (!handle.ok || handle.value === null) return handle.ok ? ok(null) : handle;
      return ok(targetFrom(handle.value));
    },
  };
}

async function pickByField(page: Window): ReturnType<FilePort['pickFile']> {
  const file = await chooseFile('.json,application/json', page.document);
  return ok(file && { file });
}

const targetFrom = (handle: FileSystemFileHandle): SetupFileTarget => ({
  name: handle.name,
  async write(text) {
    try {
      // The browser writes to a copy and swaps it in on close, so a failed save leaves the old file whole.
      const stream = await handle.createWritable();
      try {
        await stream.write(text);
      } catch (error) {
        await stream.abort().catch(() => undefined);
        throw error;
      }
      await stream.close();
      return ok(undefined);
    } catch (error) {
      return fail(fileFaultFrom(error));
    }
  },
});

async function unlessCancelled<T>(pick: () => Promise<T>): Promise<Result<T | null, FileFault>> {
  try {
    return ok(await pick());
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') return ok(null);
    return fail(fileFaultFrom(error));
  }
}

function fileFaultFrom(error: unknown): FileFault {
  const name = error instanceof Error || error instanceof DOMException ? error.name : '';
  if (name === 'NotAllowedError' || name === 'SecurityError') {
    return {
      kind: 'notAllowed',
      message: 'The browser did not allow access to that file: allow it, or save elsewhere.',
    };
  }
  if (name === 'NotFoundError') {
    return { kind: 'failed', message: 'That file is no longer there: choose where to save it.' };
  }
  if (name === 'QuotaExceededError') {
    return { kind: 'failed', message: 'There is no room left on the disk: make room or save elsewhere.' };
  }
  return { kind: 'failed', message: 'The file could not be used: try again or choose another place.' };
}

/** Lets a file be dropped anywhere on an element. Gives a function that stops it. */
export function acceptDroppedFile(target: HTMLElement, onDrop: (file: Result<File, FileFault>) => void): () => void {
  const carriesFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') ?? false;
  const onDragOver = (event: DragEvent): void => {
    // Without this the browser would leave the page and open the file.
    if (carriesFiles(event)) event.preventDefault();
  };
  const onDropEvent = (event: DragEvent): void => {
    if (!carriesFiles(event)) return;
    event.preventDefault();
    onDrop(fileFromDrop(event.dataTransfer?.files ?? []));
  };
  target.addEventListener('dragover', onDragOver);
  target.addEventListener('drop', onDropEvent);
  return () => {
    target.removeEventListener('dragover', onDragOver);
    target.removeEventListener('drop', onDropEvent);
  };
}
