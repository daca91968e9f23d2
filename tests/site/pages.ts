import fs from 'node:fs';
import path from 'node:path';

/** A page of the site as it was made. */
export interface SitePage {
  readonly html: string;
  readonly anchors: ReadonlySet<string>;
  /** Where its links, images, styles and scripts lead to. */
  readonly targets: readonly string[];
}

/** All pages of the site by their address in it. */
export function readPages(site: string): ReadonlyMap<string, SitePage> {
  const files = fs.globSync('**/*.html', { cwd: site });
  return new Map(
    files.map((file) => {
      const html = fs.readFileSync(path.join(site, file), 'utf8');
      const anchors = new Set([...html.matchAll(/ id="([^"]+)"/g)].map(([, id = '']) => id));
      const targets = [...html.matchAll(/ (?:href|src)="([^"]*)"/g)].map(([, target = '']) =>
        target.replaceAll('&amp;', '&'),
      );
      return [file.split(path.sep).join('/'), { html, anchors, targets }];
    }),
  );
}
