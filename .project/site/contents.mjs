/** The menu of the site: the lists of docs/README.md, which people read as a page, too. */
import fs from 'node:fs';
import path from 'node:path';

const HOME = 'docs/README.md';

/** Groups of entries, each with its title and the page that it leads to, from the project's folder. */
export function readContents(root) {
  const text = fs.readFileSync(path.join(root, HOME), 'utf8');
  const groups = text.split(/^## /m).slice(1);
  return groups.map((group) => ({
    title: group.split('\n', 1)[0].trim(),
    entries: [...group.matchAll(/^- \[(.+?)\]\((.+?)\)/gm)].map(([, title, link]) => ({
      title,
      page: path.posix.join(path.posix.dirname(HOME), link),
    })),
  }));
}

/** Where a page of the project stands on the site. */
export const addressOf = (page) =>
  page.replace(/(?:^|(?<=\/))README\.md(?=#|$)/, 'index.html').replace(/\.md(?=#|$)/, '.html');
