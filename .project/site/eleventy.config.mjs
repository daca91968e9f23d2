/** How Eleventy makes the site: which files are pages, where each goes, and what is copied beside them. */
import fs from 'node:fs';
import path from 'node:path';
import { addressOf, readContents } from './contents.mjs';
import { extendMarkdown } from './markdown.mjs';

const ROOT = path.resolve(import.meta.dirname, '../..');

/** What people read; everything else of the project is for programs. */
const PAGES = ['README.md', 'CHANGELOG.md', 'DEVELOPERS.md', 'docs/**/*.md', 'examples/*/README.md'];

export default function configure(eleventy) {
  const pages = new Set(PAGES.flatMap((pattern) => fs.globSync(pattern, { cwd: ROOT })));
  for (const file of fs.globSync(['**/*.md'], {
    cwd: ROOT,
    exclude: ['node_modules/**', 'site/**', '.cache/**'],
  }))
    if (!pages.has(file)) eleventy.ignores.add(file);
  // What the pages show and link to stands in the same place on the site, so that links need no change.
  eleventy.addPassthroughCopy('docs/images');
  eleventy.addPassthroughCopy('docs/version-control');
  eleventy.addPassthroughCopy('examples/*/**/*.yaml');
  eleventy.addPassthroughCopy('LICENSE');
  eleventy.addPassthroughCopy({
    '.project/site/site.css': 'site.css',
    'client/icons/fettle-128.png': 'icon.png',
  });
  eleventy.addGlobalData('layout', 'page.11ty.mjs');
  eleventy.addGlobalData('contents', () => readContents(ROOT));
  eleventy.addGlobalData(
    'permalink',
    () =>
      ({ page }) =>
        addressOf(page.inputPath.replace(/^\.\//, '')),
  );
  eleventy.amendLibrary('md', extendMarkdown);
  return {
    dir: { input: '.', output: 'site', includes: '.project/site' },
    templateFormats: ['md'],
    markdownTemplateEngine: false, // pages are Markdown and nothing else, so that they are read as they stand
  };
}
