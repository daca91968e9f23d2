import { estimateWidth } from '../../../server/core/summary/drawing/text-width.ts';
import type { View, ViewElement } from '../../../server/core/summary/view.ts';

/** Where something stands in a drawing, in its units. */
export interface Box {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** The boxes of all elements of a class: parts by their blocks, texts by estimate, which is rather too wide. */
export function boxesIn(view: View, wanted: string): Box[] {
  if (typeof view === 'string') return [];
  const inner = view.children.flatMap((child) => boxesIn(child, wanted));
  return view.attributes.class?.split(' ').includes(wanted) ? [...inner, boxOf(view)] : inner;
}

function boxOf({ tag, attributes, children }: ViewElement): Box {
  const number = (name: string) => Number(attributes[name] ?? 0);
  if (tag === 'g') {
    const [x = 0, y = 0] = (attributes.transform?.match(/-?[\d.]+/g) ?? []).map(Number);
    const block = children.find((child) => typeof child !== 'string' && child.attributes.class === 'block');
    const size = (name: string) => (typeof block === 'object' ? Number(block.attributes[name]) : 0);
    const [right, bottom] = [x + size('width'), y + size('height')];
    return { text: attributes['data-name'] ?? '', left: x, right, top: y, bottom };
  }
  const text = children.filter((child) => typeof child === 'string').join('');
  const width = estimateWidth(text, number('font-size')) * 0.92;
  const left = attributes['text-anchor'] === 'end' ? number('x') - width : number('x');
  const top = number('y') - number('font-size') * 0.78;
  return { text, left, right: left + width, top, bottom: number('y') };
}

export const meet = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** What of some labels lies over others, or over blocks; each in words. */
export function clashesOf(labels: readonly Box[], blocks: readonly Box[]): string[] {
  return labels.flatMap((label, index) =>
    [...labels.slice(index + 1), ...blocks]
      .filter((other) => meet(label, other))
      .map((other) => `${label.text} / ${other.text}`),
  );
}
