import { escapeMarkdown } from '../tables/print-markdown.ts';
import type { View } from '../view.ts';

const BLOCKS: ReadonlySet<string> = new Set([
  'p',
  'div',
  'article',
  'section',
  'header',
  'figure',
  'dl',
  'ul',
  'ol',
  'tr',
]);

/** Prints a view's words as Markdown: headings, paragraphs and lists. Pictures and buttons have no words here. */
export function printViewMarkdown(view: View): string {
  if (typeof view === 'string') return escapeMarkdown(view);
  const { tag, attributes } = view;
  if (
    tag === 'svg' ||
    tag === 'button' ||
    tag === 'input' ||
    attributes.class?.split(' ').includes('tool-only')
  )
    return '';
  const inner = view.children.map(printViewMarkdown).join('');
  if (/^h[1-6]$/.test(tag)) return `\n${'#'.repeat(Math.max(3, Number(tag[1])))} ${inner}\n\n`;
  if (tag === 'li') return `- ${inner.trim().replace(/\n+/g, ' ')}\n`;
  if (tag === 'dt') return `\n**${inner}:** `;
  return BLOCKS.has(tag) ? `\n\n${inner.trim()}\n\n` : inner;
}
