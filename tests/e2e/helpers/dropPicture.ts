import type { Page } from 'playwright';

/** Drops a picture of two colours on the frame; one of no size is no picture. */
export const dropPicture = (page: Page, name: string, widthPx: number, heightPx: number): Promise<void> =>
  page.evaluate(
    async ([fileName, width, height]) => {
      const canvas = document.createElement('canvas');
      canvas.width = width;
      canvas.height = height;
      const context = canvas.getContext('2d');
      if (context) {
        context.fillStyle = '#c8642a';
        context.fillRect(0, 0, width, height);
        context.fillStyle = '#23303f';
        context.fillRect(0, 0, width / 2, height);
      }
      const bytes = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
      const transfer = new DataTransfer();
      transfer.items.add(new File([bytes ?? 'nothing'], fileName, { type: 'image/png' }));
      document
        .querySelector('[data-testid="picture"]')
        ?.dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }));
    },
    [name, widthPx, heightPx] as const,
  );
