export { ChecksPanel } from './ChecksPanel.tsx';
