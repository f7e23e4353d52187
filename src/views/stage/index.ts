export { Stage } from './Stage.tsx';
