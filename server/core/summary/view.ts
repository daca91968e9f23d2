/**
 * What a page shows, as plain data: elements with attributes and children, text always as text. The preview page
 * builds its document from it, the report prints it as HTML; so both show the same, and nothing untrusted is ever
 * taken for markup.
 */
export type View = string | ViewElement;

export interface ViewElement {
  readonly tag: Tag;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly View[];
}

const HTML_TAGS = [
  'article', 'section', 'header', 'div', 'span', 'p', 'h1', 'h2', 'h3', 'ul', 'ol', 'li', 'dl', 'dt', 'dd', 'strong',
  'em', 'code', 'table', 'caption', 'thead', 'tbody', 'tr', 'th', 'td', 'button', 'details', 'summary', 'figure',
  'figcaption', 'abbr', 'small', 'input',
] as const; // biome-ignore format: a list of words
const SVG_TAGS = [
  'svg',
  'g',
  'path',
  'rect',
  'line',
  'circle',
  'polyline',
  'text',
  'tspan',
  'title',
  'desc',
] as const;

export type Tag = (typeof HTML_TAGS)[number] | (typeof SVG_TAGS)[number];

/** True for elements that live in the SVG name space. */
export function isSvgTag(tag: Tag): boolean {
  return (SVG_TAGS as readonly string[]).includes(tag);
}

/** Makes an element; undefined attributes and children are left out, numbers written plainly. */
export function h(
  tag: Tag,
  attributes: Readonly<Record<string, string | number | undefined>>,
  ...children: readonly (View | undefined | readonly (View | undefined)[])[]
): ViewElement {
  const given = Object.entries(attributes).filter(([, value]) => value !== undefined);
  return {
    tag,
    attributes: Object.fromEntries(given.map(([name, value]) => [name, String(value)])),
    children: children.flat().filter((child): child is View => child !== undefined),
  };
}

/** The same view for a page without a script: what only a script could answer is taken away. */
export function withoutTools(view: View): View | undefined {
  if (typeof view === 'string') return view;
  const { tag, attributes } = view;
  if (attributes.class?.split(' ').includes('tool-only')) return undefined;
  if (attributes['data-tick'] !== undefined)
    return { tag: 'span', attributes: { class: 'tick-box' }, children: [] };
  const children = view.children.map(withoutTools).filter((child) => child !== undefined);
  return attributes['data-act'] === undefined
    ? { tag, attributes, children }
    : { tag: 'span', attributes: {}, children };
}

/** Prints a view as HTML. Everything that is not markup of ours is escaped. */
export function printHtml(view: View): string {
  if (typeof view === 'string') return escapeHtml(view);
  const attributes = Object.entries(view.attributes).map(
    ([name, value]) => ` ${name}="${escapeHtml(value)}"`,
  );
  if (view.tag === 'input') return `<input${attributes.join('')}>`;
  return `<${view.tag}${attributes.join('')}>${view.children.map(printHtml).join('')}</${view.tag}>`;
}

/** Escapes text for element content and for quoted attribute values. */
export function escapeHtml(text: string): string {
  return text.replace(/[&<>"']/g, (char) => ESCAPES[char] ?? char);
}

const ESCAPES: Record<string, string> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};
