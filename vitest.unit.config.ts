/** The tests that need neither the built demo nor a browser: what mutation testing runs, over and over. */
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/logic/**/*.test.ts', 'tests/language/**/*.test.ts'],
    environment: 'node',
    testTimeout: 60_000,
  },
});
