export { ReferenceBeside } from './ReferenceBeside.tsx';
export { ReferenceOptions } from './ReferenceOptions.tsx';
export { ReferenceOverlay } from './ReferenceOverlay.tsx';
export { usePhotoDrop } from './usePhotoDrop.ts';
