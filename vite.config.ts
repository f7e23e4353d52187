import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { offlinePlugin } from './tools/offlinePlugin.mjs';
import { policyPlugin } from './tools/policyPlugin.mjs';

export default defineConfig({
  base: './',
  plugins: [react(), offlinePlugin(), policyPlugin()],
  worker: { format: 'es' },
  build: { target: 'es2022', chunkSizeWarningLimit: 2000 },
});
