import type { Link } from './wiring.ts';

/** A link's conductor in a few words: its own wire or its cable's, and its colour. */
export function describeWire(link: Link): string {
  const wire = link.wire.own?.text('wire')?.value ?? link.wire.shared?.text('wire')?.value ?? '';
  return [wire, link.wire.colour?.text ?? ''].filter((word) => word !== '').join(' ');
}

/** The colour letters of a link's conductor, where they are written: behind the link, or in its wire. */
export function colourOf(link: Link): string | undefined {
  const words = `${link.wire.own?.text('wire')?.value ?? ''} ${link.wire.colour?.text ?? ''}`
    .trim()
    .split(/\s+/);
  return words.findLast((word) => /^[A-Z]{2}(?:[-/]?[A-Z]{2})*$/.test(word) && word !== 'AWG');
}
