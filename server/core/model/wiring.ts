import type { Problem } from '../problem.ts';
import { keptBy } from '../reuse/kept-by.ts';
import { mapEach } from '../reuse/map-each.ts';
import { type Fields, fieldsOf } from '../shape/fields.ts';
import { cableShape, linkShape } from '../shape/shapes.ts';
import { type ListNode, type Node, type Scalar, type Span, valueUnder } from '../syntax/node.ts';
import { readColour, readWire } from '../units/index.ts';
import { type End, type LinkText, readLinkText } from './link.ts';
import type { Cable } from './machine.ts';

/** One conductor from one terminal to another. */
export interface Link {
  readonly from: End;
  readonly to: End;
  /** The text of the whole link, which may hold several conductors. */
  readonly at: Scalar;
  readonly wire: Wiring;
  readonly label: string | undefined;
  readonly cable: string | undefined;
}

/** What is said of the conductor, in the link itself or in its cable. */
export interface Wiring {
  readonly colour: { readonly text: string; readonly at: Span } | undefined;
  readonly own: Fields | undefined;
  readonly shared: Fields | undefined;
}

export interface WiringText {
  readonly links: readonly Link[];
  readonly cables: readonly Cable[];
  readonly problems: readonly Problem[];
}

/** Reads the wiring list: plain links, links with particulars, and cables that hold several. */
export function readWiring(node: Node | undefined): WiringText {
  return node?.kind === 'list' ? readList(node) : NOTHING;
}

const NOTHING: WiringText = { links: [], cables: [], problems: [] };

const readList = keptBy(({ items }: ListNode): WiringText => {
  const links: Link[] = [];
  const cables: Cable[] = [];
  const problems: Problem[] = [];
  // What an alias repeats is a link of its own each time.
  for (const read of readItems(items.filter((item) => item !== undefined))) {
    for (const link of read.links) links.push(link);
    for (const cable of read.cables) cables.push(cable);
    for (const problem of read.problems) problems.push(problem);
  }
  return { links, cables, problems };
});

/** The links of one item. They stay the same objects while its text does, wherever it moves to. */
const readItems = mapEach(readItem);

function readItem(item: Node): WiringText {
  const cable = readCable(item);
  const texts = cable ? linksIn(cable) : linkIn(item);
  const read = texts.map(({ scalar, own }) => ({ scalar, own, text: readLinkText(scalar) }));
  return {
    links: read.flatMap(({ scalar, own, text }) => makeLinks(scalar, text, own, cable)),
    cables: cable ? [cable] : [],
    problems: read.flatMap(({ text }) => {
      if (text.problem) return [text.problem];
      return text.wire ? checkWireText(text.wire) : [];
    }),
  };
}

function makeLinks(
  at: Scalar,
  { from, to, wire }: LinkText,
  own: Fields | undefined,
  cable: Cable | undefined,
): readonly Link[] {
  if (!from) return [];
  return to.map((end) => ({
    from,
    to: end,
    at,
    wire: { colour: wire, own, shared: cable?.fields },
    label: own?.text('label')?.value,
    cable: cable?.name,
  }));
}

/** What stands behind a link is a colour, or a wire with its size. */
function checkWireText({ text, at }: { readonly text: string; readonly at: Span }): Problem[] {
  const { problems } = /\d/.test(text) ? readWire(text) : readColour(text);
  return problems.map(({ code, from, to, data }) => ({
    code,
    at: { block: at.block, from: Math.min(at.from + from, at.to), to: Math.min(at.from + to, at.to) },
    data: { key: 'wire', ...data },
  }));
}

function readCable(item: Node): Cable | undefined {
  const key = valueUnder(item, 'cable');
  return key?.kind === 'scalar' ? { name: key.text, key, fields: fieldsOf(item, cableShape) } : undefined;
}

interface LinkItem {
  readonly scalar: Scalar;
  readonly own: Fields | undefined;
}

function linkIn(item: Node | undefined): LinkItem[] {
  if (item?.kind === 'scalar') return [{ scalar: item, own: undefined }];
  const scalar = valueUnder(item, 'link');
  return scalar?.kind === 'scalar' ? [{ scalar, own: fieldsOf(item, linkShape) }] : [];
}

function linksIn(cable: Cable): LinkItem[] {
  const list = valueUnder(cable.fields.node, 'links');
  const items = list?.kind === 'list' ? list.items : [];
  return items.flatMap(linkIn);
}
