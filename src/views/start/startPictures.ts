const FILES = import.meta.glob<string>('../../../assets/start/*.webp', {
  eager: true,
  query: '?url&no-inline',
  import: 'default',
});

/** Address of the picture of a demo or a mood, 'demo-NAME' or 'mood-NAME'; undefined where there is none. */
export const startPicture = (key: string): string | undefined => FILES[`../../../assets/start/${key}.webp`];
