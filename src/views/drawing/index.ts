export { Drawing } from './Drawing.tsx';
