const FILES = import.meta.glob<string>('../../../assets/shelf/*.webp', {
  eager: true,
  query: '?url&no-inline',
  import: 'default',
});

/** Address of the small picture of something on the shelf; undefined where there is none. */
export const shelfPicture = (key: string): string | undefined => FILES[`../../../assets/shelf/${key}.webp`];
