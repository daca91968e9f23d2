import { factMap } from '../reuse/fact-map.ts';
import type { Machine } from './resolve.ts';
import type { Link } from './wiring.ts';

/**
 * The places of the links. They are no part of a link, since a link that is pasted in moves all below it: those are the
 * same links still, and only what shows their numbers is another.
 */
const numbers = factMap<Machine, Link, number>(
  'machine',
  ({ links }) => new Map(links.map((link, place) => [link, place + 1])),
);

/** The place of a link in the order of the text, from 1. */
export function numberOf(machine: Machine, link: Link): number {
  return numbers.get(machine, link) ?? 0;
}

/** How a link is called: by its label, its cable, or its place in the text. */
export function nameLink(machine: Machine, link: Link): string {
  return link.label ?? link.cable ?? String(numberOf(machine, link));
}
