import { isSvgTag, type View, type ViewElement } from '../../server/core/summary/view.ts';

const SVG = 'http://www.w3.org/2000/svg';

const ATTRIBUTES: ReadonlySet<string> = new Set(
  [
    'class id role tabindex title colspan rowspan scope open hidden',
    'viewBox preserveAspectRatio x y x1 y1 x2 y2 dx dy cx cy r rx ry width height d points transform',
    'fill fill-opacity fill-rule stroke stroke-width stroke-opacity stroke-dasharray stroke-dashoffset stroke-linecap',
    'stroke-linejoin opacity color font-family font-size font-weight font-style letter-spacing text-anchor',
    'dominant-baseline vector-effect paint-order',
  ]
    .join(' ')
    .split(' '),
);

/** True for attributes that can only describe: no handlers, no addresses, no styles. */
function isAllowed(name: string, value: string): boolean {
  if (name.startsWith('data-') || name.startsWith('aria-')) return /^[a-z-]+$/.test(name);
  return ATTRIBUTES.has(name) && !/url\s*\(/i.test(value);
}

/** Builds the document node of a view. Text is always text; attributes that are not on the list are left out. */
export function buildNode(view: View): Node {
  return typeof view === 'string' ? document.createTextNode(view) : buildElement(view);
}

/** Builds the element of a view, with all its children. */
export function buildElement(view: ViewElement): HTMLElement | SVGElement {
  const element = isSvgTag(view.tag)
    ? document.createElementNS(SVG, view.tag)
    : document.createElement(view.tag);
  if (element instanceof HTMLButtonElement) element.type = 'button';
  for (const [name, value] of Object.entries(view.attributes)) {
    if (isAllowed(name, value)) element.setAttribute(name, value);
  }
  element.append(...view.children.map(buildNode));
  return element as HTMLElement | SVGElement;
}

/**
 * Makes a node like a view with as few changes as possible, and returns it or the one that takes its place. Elements
 * that stay keep the focus, the selection, and whether the person has opened or closed them.
 */
export function updateNode(node: Node, view: View): Node {
  if (typeof view === 'string') {
    if (!(node instanceof Text)) return replaceNode(node, buildNode(view));
    if (node.data !== view) node.data = view;
    return node;
  }
  if (!(node instanceof Element) || node.localName !== view.tag) return replaceNode(node, buildNode(view));
  updateAttributes(node, view.attributes);
  updateChildren(node, view.children);
  return node;
}

function replaceNode(old: Node, fresh: Node): Node {
  old.parentNode?.replaceChild(fresh, old);
  return fresh;
}

function updateAttributes(element: Element, wanted: Readonly<Record<string, string>>): void {
  for (const { name } of [...element.attributes]) {
    if (!KEPT.has(name) && !Object.hasOwn(wanted, name)) element.removeAttribute(name);
  }
  for (const [name, value] of Object.entries(wanted)) {
    if (KEPT.has(name) || !isAllowed(name, value) || element.getAttribute(name) === value) continue;
    element.setAttribute(name, value);
  }
}

/** What belongs to the person and the page, not to the content. */
const KEPT: ReadonlySet<string> = new Set(['open', 'type']);

function updateChildren(element: Element, views: readonly View[]): void {
  views.forEach((view, index) => {
    const child = element.childNodes[index];
    if (child === undefined) element.append(buildNode(view));
    else updateNode(child, view);
  });
  while (element.childNodes.length > views.length) element.lastChild?.remove();
}
