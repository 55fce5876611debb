import { defineConfig } from 'vitest/config';

const everywhere = {
  exclude: ['tests/host/**', 'node_modules/**'],
  reporters: ['default', './tests/house/skippedFails.mjs'],
};

// `--mode long` is `npm run test:long`: what takes minutes, and the property tests with many more samples.
export default defineConfig(({ mode }) => ({
  test:
    mode === 'long'
      ? {
          ...everywhere,
          include: ['tests/**/*.long.test.ts', 'tests/robustness/**/*.test.ts'],
          setupFiles: ['./tests/robustness/moreSamples.ts'],
          testTimeout: 600_000,
        }
      : {
          ...everywhere,
          include: ['tests/**/*.test.ts'],
          exclude: [...everywhere.exclude, 'tests/**/*.long.test.ts'],
          testTimeout: 20_000,
        },
}));
