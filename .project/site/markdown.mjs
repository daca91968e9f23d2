/** What the site makes of our Markdown beyond the usual: anchors, links from page to page, captions, and regions that scroll. */
import { addressOf } from './contents.mjs';

/** How Git hosts and VS Code name a heading: small letters, no signs, hyphens for blanks. */
export const anchorOf = (heading) =>
  heading
    .toLowerCase()
    .replace(/[^\p{L}\p{N} _-]/gu, '')
    .trim()
    .replaceAll(' ', '-');

export function extendMarkdown(markdown) {
  markdown.core.ruler.push('anchors', ({ tokens }) => nameHeadings(tokens));
  markdown.core.ruler.push('pages', ({ tokens }) => turnLinks(tokens));
  const { rules } = markdown.renderer;
  rules.fence = renderBlock(markdown.utils.escapeHtml);
  rules.code_block = (tokens, index) => preformatted(markdown.utils.escapeHtml(tokens[index].content));
  // A table that is wider than the screen scrolls by itself, with the keyboard too.
  rules.table_open = () => '<div class="wide" role="region" aria-label="Table" tabindex="0"><table>\n';
  rules.table_close = () => '</table></div>\n';
}

/** The text of what stands in a line, without its marks. */
export const textOf = (inline) =>
  (inline.children ?? [inline]).map(({ type, content }) => (type === 'html_inline' ? '' : content)).join('');

function nameHeadings(tokens) {
  const used = new Map();
  for (const [index, token] of tokens.entries()) {
    if (token.type !== 'heading_open') continue;
    const anchor = anchorOf(textOf(tokens[index + 1]));
    const times = used.get(anchor) ?? 0;
    used.set(anchor, times + 1);
    token.attrSet('id', times === 0 ? anchor : `${anchor}-${times}`);
  }
}

function turnLinks(tokens) {
  for (const { children } of tokens)
    for (const token of children ?? []) {
      const target = token.type === 'link_open' ? token.attrGet('href') : null;
      if (target !== null && !/^[a-z]+:/.test(target)) token.attrSet('href', addressOf(target));
      if (token.type === 'image') token.attrSet('loading', 'lazy');
    }
}

/** A block says above itself which file it is of, as its fence does: "router.machine.yaml, in wiring". */
const renderBlock = (escapeText) => (tokens, index) => {
  const { info, content } = tokens[index];
  const [language = '', file, , section] = info.trim().split(/\s+/);
  const shown = preformatted(markLines(language, escapeText(content)), language);
  if (file === undefined) return shown;
  const what = section ? `, in ${section}` : language === 'diff' ? ', changed' : '';
  const caption = `<figcaption>${escapeText(file)}${escapeText(what)}</figcaption>`;
  return `<figure class="block">${caption}${shown}</figure>\n`;
};

const preformatted = (text, language = 'text') =>
  `<pre tabindex="0"><code class="language-${language.replace(/[^a-z]/g, '')}">${text}</code></pre>\n`;

/** Comments, what was typed, and what a change takes and brings: marked by lines, since more would need a parser. */
function markLines(language, text) {
  const mark = (kind) => (line) => `<span class="${kind}">${line}</span>`;
  if (language === 'diff') return text.replace(/^\+.*$/gm, mark('added')).replace(/^-.*$/gm, mark('removed'));
  if (language === 'console') return text.replace(/^\$ .*$/gm, mark('typed'));
  return language === 'yaml' ? text.replace(/(?<=^|\s)# .*$/gm, mark('comment')) : text;
}
