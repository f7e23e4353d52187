import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    environment: 'node',
    // One fewer than there are cores by default, which on two leaves one idle.
    maxWorkers: '100%',
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: ['tests/reference/**', 'tests/e2e/**'],
          testTimeout: 60_000,
        },
      },
      {
        extends: true,
        test: {
          name: 'reference',
          include: ['tests/reference/**/*.test.ts'],
          testTimeout: 300_000,
        },
      },
      {
        extends: true,
        test: {
          name: 'e2e',
          include: ['tests/e2e/**/*.test.ts'],
          globalSetup: ['tests/e2e/helpers/serveApp.ts'],
          testTimeout: 180_000,
          hookTimeout: 120_000,
          fileParallelism: false,
          maxWorkers: 1,
        },
      },
    ],
  },
});
