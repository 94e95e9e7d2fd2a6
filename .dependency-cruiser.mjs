// Data flows one way: diagnostics <- language <- model <- compile <- book <- pages, prose, figures <- cli; logic stands alone.
// Each folder has one way in, its index.ts. tests/dependencies.test.ts shows that wrong imports are refused.

/** What each folder of src/ may import of the others. The site's folders may import each other. */
export const mayImport = {
  logic: [],
  paper: [],
  diagnostics: [],
  language: ['diagnostics'],
  model: ['diagnostics', 'language'],
  compile: ['diagnostics', 'language', 'logic', 'model'],
  book: ['diagnostics', 'language', 'logic', 'model', 'compile'],
  figures: ['book'],
  prose: ['diagnostics', 'model', 'book', 'figures'],
  site: ['model', 'book', 'figures', 'paper', 'prose'],
  cli: ['diagnostics', 'language', 'logic', 'model', 'compile', 'book', 'figures', 'paper', 'prose'],
};

/** Folders that are functions from data to data: no files, no clock, no network. */
const pure = ['logic', 'diagnostics', 'language', 'model', 'compile', 'book', 'figures', 'paper', 'prose'];

/** Astro's folders, under one name. */
const site = ['pages', 'layouts', 'components', 'islands', 'styles'];

const pathOf = (folder) => (folder === 'site' ? `(${site.join('|')})` : folder);

const oneWay = Object.entries(mayImport).map(([folder, allowed]) => ({
  name: `${folder}-imports-only-what-comes-before-it`,
  comment: `src/${folder} may import from: ${[folder, ...allowed].join(', ')}.`,
  severity: 'error',
  from: { path: `^src/${pathOf(folder)}/` },
  to: { path: '^src/', pathNot: `^src/(${[folder, ...allowed].map(pathOf).join('|')})/` },
}));

/** @type {import('dependency-cruiser').IConfiguration} */
export default {
  forbidden: [
    ...oneWay,
    {
      name: 'one-way-in',
      comment: 'Other folders import only from the index.ts of a folder.',
      severity: 'error',
      from: { path: '^src/([^/]+)/' },
      to: {
        path: '^src/(logic|diagnostics|language|model|compile|book|figures|paper|prose|cli)/',
        pathNot: ['^src/$1/', '^src/[^/]+/index\\.ts$'],
      },
    },
    {
      name: 'every-folder-of-src-is-known',
      comment: 'A new folder needs its place in the flow: see mayImport.',
      severity: 'error',
      from: { path: '^src/', pathNot: `^src/(${Object.keys(mayImport).map(pathOf).join('|')})/|^src/env\\.d\\.ts$` },
      to: {},
    },
    {
      name: 'no-node-in-the-pure-core',
      comment: 'Files, clocks and networks live at the edges: src/cli and Astro.',
      severity: 'error',
      from: { path: `^src/(${pure.join('|')})/` },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'logic-imports-nothing',
      comment: 'logic knows no content and runs in the browser too.',
      severity: 'error',
      from: { path: '^src/logic/' },
      to: { pathNot: '^src/logic/' },
    },
    {
      name: 'no-cycles',
      comment: 'Types may refer to each other within a folder; code may not.',
      severity: 'error',
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
    },
    {
      name: 'src-never-imports-tests-or-scripts',
      severity: 'error',
      from: { path: '^src/' },
      to: { path: '^(tests|scripts)/' },
    },
    {
      name: 'src-needs-real-dependencies',
      comment: 'What the tool imports must be installed with it; types are needed only to develop it.',
      severity: 'error',
      from: { path: '^src/' },
      to: {
        dependencyTypes: ['npm-dev', 'npm-no-pkg', 'npm-unknown'],
        dependencyTypesNot: ['type-only'],
        pathNot: 'node_modules/@types/',
      },
    },
    {
      name: 'the-oracle-is-independent',
      comment: 'tests/oracle judges src/ from outside, so its interpreters may use nothing of it; its tests may.',
      severity: 'error',
      from: { path: '^tests/oracle/', pathNot: '\\.test\\.ts$' },
      to: { path: '^src/' },
    },
    {
      name: 'everything-resolves',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true, pathNot: '^(virtual|astro):' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '^(dist|lib)/|^tests/fixtures/' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'node', 'types', 'default'] },
  },
};
