import { isSvgTag, type View, type ViewElement } from '../../server/core/summary/view.ts';

const SVG = 'http://www.w3.org/2000/svg';

const ATTRIBUTES: ReadonlySet<string> = new Set(
  [
    'class id role tabindex title colspan rowspan scope open hidden type placeholder',
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
  updateAttributes(element, view.attributes);
  element.append(...view.children.map(buildNode));
  return element as HTMLElement | SVGElement;
}

/**
 * Makes a node like a view with as few changes as possible, and returns it or the one that takes its place. Elements
 * that stay keep the focus, the selection, and what page and person have done to them: ticked, opened, marked.
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

/** What the last view said of each element's attributes. What it did not say belongs to the page and the person. */
const said = new WeakMap<Element, Readonly<Record<string, string>>>();

function updateAttributes(element: Element, wanted: Readonly<Record<string, string>>): void {
  const before = said.get(element) ?? {};
  said.set(element, wanted);
  for (const name of Object.keys(before)) {
    if (!Object.hasOwn(wanted, name)) element.removeAttribute(name);
  }
  for (const [name, value] of Object.entries(wanted)) {
    if (before[name] !== value && isAllowed(name, value)) element.setAttribute(name, value);
  }
}

/** Children that carry a `data-id` are found again by it, so that a row stays itself when others come and go. */
function updateChildren(element: Element, views: readonly View[]): void {
  const wanted = new Set(views.map(keyOfView));
  const keyed = new Map<string, Element>();
  for (const child of [...element.children]) {
    const key = said.get(child)?.['data-id'];
    if (key === undefined) continue;
    if (wanted.has(key)) keyed.set(key, child);
    else child.remove();
  }
  views.forEach((view, index) => {
    const there = element.childNodes[index] ?? null;
    const key = keyOfView(view);
    const own = key === undefined ? undefined : keyed.get(key);
    if (key !== undefined) keyed.delete(key);
    const isFree = there !== null && !isKeyed(there, keyed);
    const node = own ?? (isFree ? there : null);
    if (node !== there || node === null) element.insertBefore(node ?? buildNode(view), there);
    if (node !== null) updateNode(node, view);
  });
  while (element.childNodes.length > views.length) element.lastChild?.remove();
}

/** True for a child that a later view will ask for. */
function isKeyed(child: Node, keyed: ReadonlyMap<string, Element>): boolean {
  const key = child instanceof Element ? said.get(child)?.['data-id'] : undefined;
  return key !== undefined && keyed.get(key) === child;
}

function keyOfView(view: View): string | undefined {
  return typeof view === 'string' ? undefined : view.attributes['data-id'];
}
