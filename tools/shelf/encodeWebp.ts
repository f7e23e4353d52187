import { launchBrowser } from '../browser.mjs';
import type { SmallPicture } from './takePicture.ts';

/** Turns pixels into WebP with the browser's own encoder. Call `close` when done. */
export async function createWebpEncoder(): Promise<{
  encode(picture: SmallPicture, quality: number): Promise<Uint8Array>;
  close(): Promise<void>;
}> {
  const browser = await launchBrowser();
  const page = await browser.newPage();
  return {
    async encode({ widthPx, heightPx, rgba }, quality) {
      const pixels = Buffer.from(rgba.buffer).toString('base64');
      const url = await page.evaluate(
        ([text, width, height, q]) => {
          const canvas = document.createElement('canvas');
          canvas.width = width;
          canvas.height = height;
          const bytes = Uint8ClampedArray.from(atob(text), (letter) => letter.charCodeAt(0));
          canvas.getContext('2d')?.putImageData(new ImageData(bytes, width, height), 0, 0);
          return canvas.toDataURL('image/webp', q);
        },
        [pixels, widthPx, heightPx, quality] as const,
      );
      return Buffer.from(url.slice(url.indexOf(',') + 1), 'base64');
    },
    close: () => browser.close(),
  };
}
