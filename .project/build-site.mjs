/** Makes the site from the pages of the project, in `site/`. It can be read from any web server, or as files. */
import fs from 'node:fs';
import path from 'node:path';
import Eleventy from '@11ty/eleventy';
import { build } from 'esbuild';
import { cutIntoSections } from './site/sections.mjs';

const ROOT = path.resolve(import.meta.dirname, '..');
const SITE = path.join(ROOT, 'site');

process.chdir(ROOT);
fs.rmSync(SITE, { recursive: true, force: true });
const eleventy = new Eleventy('.', 'site', {
  configPath: '.project/site/eleventy.config.mjs',
  quietMode: true,
  config: (settings) => settings.on('eleventy.after', ({ results }) => writeSections(results)),
});
await eleventy.write();
await build({
  entryPoints: [path.join(ROOT, '.project/site/search.mjs')],
  outfile: path.join(SITE, 'search.js'),
  bundle: true,
  minify: true,
  format: 'iife',
  target: 'chrome124',
  logLevel: 'warning',
});
console.log(`${fs.globSync('**/*.html', { cwd: SITE }).length} pages in ${path.relative(ROOT, SITE)}/`);

function writeSections(pages) {
  const sections = pages.flatMap(({ outputPath, content }) =>
    cutIntoSections(path.relative(SITE, path.resolve(outputPath)).split(path.sep).join('/'), content),
  );
  const numbered = sections.map((section, id) => ({ id, ...section }));
  fs.writeFileSync(
    path.join(SITE, 'search-sections.js'),
    `globalThis.fettleSections=${JSON.stringify(numbered)};`,
  );
}
