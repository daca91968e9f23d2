import { expect, it } from 'vitest';
import { printMarkdown } from '../../../server/core/summary/export/print-markdown.ts';
import { printPage } from '../../../server/core/summary/export/print-page.ts';
import { printSvg } from '../../../server/core/summary/export/print-svg.ts';
import { h } from '../../../server/core/summary/view.ts';
import { analyseExample, fettle } from '../features/example.ts';

const summary = fettle.summary(analyseExample());
const setup = { styles: 'p { margin: 0 }', drawings: new Map(), date: '8 March 2026' };

it('prints a page with machine, revision and the date of the caller, every section, and no script', () => {
  const page = printPage(summary, setup);
  expect(page).toContain('<span>Fairground router</span> <span>revision 7</span> <span>8 March 2026</span>');
  expect(page).toContain('Mains voltage, moving machinery, stored energy and spindles can kill.');
  expect(page).not.toMatch(/<script|<button|<input|https?:\/\/(?!www\.w3\.org)/);
  for (const section of [
    'headline',
    'inputs',
    'charts',
    'timing',
    'motion',
    'spindle',
    'lists',
    'settings',
    'cautions',
  ])
    expect(page).toContain(`id="section-${section}"`);
});

it('prints a page under a policy that lets nothing in but its own style sheet', () => {
  const page = printPage(summary, setup);
  const policies = [...page.matchAll(/<meta http-equiv="Content-Security-Policy" content="([^"]*)">/g)];
  expect(policies.map(([, policy]) => policy)).toEqual(["default-src 'none'; style-src 'unsafe-inline'"]);
  // A policy holds for what stands after it.
  expect(page.indexOf('Content-Security-Policy')).toBeLessThan(page.indexOf('<style>'));
});

it('takes a hostile name as text in the head, the style sheet and the title', () => {
  const title = '</style><script>x</script>"; } body { display: none';
  const page = printPage({ ...summary, title, items: [] }, setup);
  expect(page).not.toContain('<script>');
  expect(page.match(/<\/style>/g)).toHaveLength(1);
  expect(/<style>(.*)<\/style>/s.exec(page)?.[1]).not.toContain('body { display: none');
});

it('prints Markdown with the cautions and the cut list', () => {
  const text = printMarkdown(summary, '8 March 2026');
  expect(text).toMatch(/^# Fairground router\n\nRevision 7, 8 March 2026\n\n## At a glance\n/);
  expect(text).toContain('## Cautions\n');
  expect(text).toContain('| Label | Wire | Colour | Length | From | To |');
  expect(text).not.toMatch(/\n{3}/);
});

it('prints a drawing as a file of its own that XML readers take', () => {
  const svg = printSvg(h('svg', { viewBox: '0 0 4 2' }, h('text', {}, 'a\u0000b \ud800 <&>')));
  expect(svg).toBe(
    '<?xml version="1.0" encoding="UTF-8"?>\n<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 2">' +
      '<rect x="0" y="0" width="4" height="2" fill="#ffffff"></rect><text>ab  &lt;&amp;&gt;</text></svg>\n',
  );
});
