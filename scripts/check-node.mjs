// Plain JavaScript that old versions of Node can read: it explains itself where the pinned Node of node_modules is missing.
const needed = 24;
const found = Number(process.versions.node.split('.')[0]);
if (found < needed) {
  console.error(
    `This needs Node ${needed}, and this is Node ${process.versions.node}. npm scripts and npx run the one that "npm ci" puts into ` +
      'node_modules. If you see this through them, its install script did not run: try "npm rebuild node".',
  );
  process.exit(2);
}
