/** The tests that need neither the built demo nor a browser: what mutation testing runs, over and over. */
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/logic/**/*.test.ts', 'tests/language/**/*.test.ts'],
    // An integer program a table: minutes.
    exclude: ['tests/logic/fewest-rows.test.ts'],
    environment: 'node',
    testTimeout: 240_000,
  },
});
