import { useEffect } from 'react';
import { isPictureFile } from './photoFile.ts';
import { takeReference } from './takeReference.ts';

/** A picture dropped anywhere on the page, or pasted, becomes the reference; other files are left to whoever opens them. */
export function usePhotoDrop(): void {
  useEffect(() => {
    const take = (event: Event, files: FileList | undefined) => {
      const [file] = files ?? [];
      if (files?.length !== 1 || !file || !isPictureFile(file)) return;
      event.preventDefault();
      event.stopPropagation();
      void takeReference(file);
    };
    const onDrop = (event: DragEvent) => take(event, event.dataTransfer?.files);
    const onPaste = (event: ClipboardEvent) => take(event, event.clipboardData?.files);
    window.addEventListener('drop', onDrop, true);
    window.addEventListener('paste', onPaste);
    return () => {
      window.removeEventListener('drop', onDrop, true);
      window.removeEventListener('paste', onPaste);
    };
  }, []);
}
