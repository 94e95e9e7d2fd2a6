import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: ['tests/helpers/built-books.ts'],
    environment: 'node',
    // One worker a core: builds and browsers leave a core idle at times, and two cores are all that there may be.
    maxWorkers: '100%',
    // The files of a worker share what they import: reading our own sources anew for each would take a seventh of the time.
    isolate: false,
    // Tests start builds, browsers and solvers on machines with two cores: generous limits, since nothing is judged by time.
    testTimeout: 180_000,
    hookTimeout: 240_000,
    // A focused test left behind must not make the rest pass unseen.
    allowOnly: false,
    passWithNoTests: false,
  },
});
