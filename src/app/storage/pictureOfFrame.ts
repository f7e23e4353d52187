const WIDTH_PX = 320;
const QUALITY = 0.82;

/** The traced picture on screen, made small, as a data address; null while there is none. */
export function pictureOfFrame(): string | null {
  const traced = document.querySelector<HTMLCanvasElement>('canvas.kg-traced[data-shown="true"]');
  if (!traced || traced.width === 0 || traced.height === 0) return null;
  const small = document.createElement('canvas');
  small.width = WIDTH_PX;
  small.height = Math.max(1, Math.round((WIDTH_PX * traced.height) / traced.width));
  const context = small.getContext('2d');
  if (!context) return null;
  context.imageSmoothingQuality = 'high';
  context.drawImage(traced, 0, 0, small.width, small.height);
  return small.toDataURL('image/webp', QUALITY);
}
