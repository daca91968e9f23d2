/** One page of the site: the menu, the text, and its headings. Everything is a link, so that it works without a script. */
import path from 'node:path';
import { addressOf } from './contents.mjs';

export const data = {
  eleventyComputed: {
    title: ({ page }) => page.rawInput.match(/^# (.+)$/m)?.[1].replaceAll('`', '') ?? 'Fettle',
  },
};

export function render({ content, title, contents, page }) {
  const own = page.outputPath.replace(/^.*?site\//, '');
  const toRoot = path.posix.relative(path.posix.dirname(own), '.') || '.';
  const link = (address) => path.posix.relative(path.posix.dirname(own), address);
  const input = page.inputPath.replace(/^\.\//, '');
  return `<!doctype html>
<html lang="${/\/de\//.test(input) ? 'de' : 'en'}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${escapeText(title)}${title === 'Fettle' ? '' : ' · Fettle'}</title>
<link rel="icon" href="${toRoot}/icon.png">
<link rel="stylesheet" href="${toRoot}/site.css">
<script defer src="${toRoot}/search.js" data-root="${toRoot}"></script>
</head>
<body>
<a class="skip" href="#text">To the text</a>
<header>
<a class="home" href="${link('index.html')}"><img src="${toRoot}/icon.png" alt="" width="28" height="28">Fettle</a>
<a class="to-menu" href="#menu">Contents</a>
<search hidden>
<label for="search">Search</label>
<input id="search" type="search" autocomplete="off" spellcheck="false" aria-controls="results">
<div id="results" role="region" aria-label="Search results" aria-live="polite" hidden></div>
</search>
</header>
<main id="text" tabindex="-1">
${content}
${stepLinks(contents, input, link)}
</main>
${headingList(content)}
<nav id="menu" aria-label="Contents">
${contents.map((group) => menuGroup(group, input, link)).join('\n')}
</nav>
</body>
</html>
`;
}

function menuGroup({ title, entries }, input, link) {
  const items = entries.map((entry) => {
    const current =
      entry.page === input
        ? ' aria-current="page"'
        : isBelow(input, entry.page)
          ? ' aria-current="true"'
          : '';
    return `<li><a href="${link(addressOf(entry.page))}"${current}>${escapeText(entry.title)}</a></li>`;
  });
  return `<h2>${escapeText(title)}</h2>\n<ul>\n${items.join('\n')}\n</ul>`;
}

/** docs/findings/… stand below docs/findings.md. */
const isBelow = (input, page) => input.startsWith(`${page.replace(/\.md$/, '')}/`);

/** Where somebody goes who reads from front to back. */
function stepLinks(contents, input, link) {
  const all = contents.flatMap(({ entries }) => entries);
  const at = all.findIndex(({ page }) => page === input);
  if (at < 0) return '';
  const step = (entry, words, rel) =>
    entry
      ? `<a rel="${rel}" href="${link(addressOf(entry.page))}">${words}: ${escapeText(entry.title)}</a>`
      : '';
  return `<nav class="steps" aria-label="Pages before and after">${step(all[at - 1], 'Before', 'prev')}${step(all[at + 1], 'Next', 'next')}</nav>`;
}

/** A list of the headings of a long page. */
function headingList(content) {
  const found = [...content.matchAll(/<h2 id="([^"]+)">(.*?)<\/h2>/g)];
  if (found.length < 3) return '';
  const items = found.map(
    ([, id, words]) => `<li><a href="#${id}">${words.replace(/<\/?a[^>]*>/g, '')}</a></li>`,
  );
  return `<nav class="here" aria-label="On this page"><h2>On this page</h2><ul>${items.join('')}</ul></nav>`;
}

const escapeText = (text) =>
  text.replace(/[&<>"]/g, (sign) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[sign]);
