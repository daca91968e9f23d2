/** A machine that is written down piece by piece around one part. */
export interface Draft {
  /** Entries of `parts`, by name. */
  readonly parts: Readonly<Record<string, string>>;
  /** Both ends of each link; a link that comes twice is written once. */
  readonly links: readonly (readonly [from: string, to: string])[];
  /** Whole sections: axes, spindle, handwheel. */
  readonly sections?: readonly string[];
}

/** How the part that is tried is called on its bench. */
export const TRIED = 'part';

/** The text of a machine with the part that is tried, by the name of its sheet beside it. */
export function writeBench(name: string, { parts, links, sections = [] }: Draft): string {
  const all = Object.entries({ [TRIED]: `{ sheet: ${JSON.stringify(name)} }`, ...parts });
  // In quotes, since a terminal may be called by any sign that is printed on a part.
  const wiring = new Set(links.map(([from, to]) => `  - ${JSON.stringify(`${from} -> ${to}`)}`));
  return [
    'machine: Bench',
    'mains: 230 V 50 Hz',
    'parts:',
    ...all.map(([part, value]) => `  ${part}: ${value}`),
    ...(wiring.size > 0 ? ['wiring:', ...wiring] : []),
    ...sections,
    '',
  ].join('\n');
}

/** Drafts put together; parts of the same name must be the same. */
export function joinDrafts(...drafts: readonly Draft[]): Draft {
  return {
    parts: Object.assign({}, ...drafts.map(({ parts }) => parts)),
    links: drafts.flatMap(({ links }) => links),
    sections: drafts.flatMap(({ sections = [] }) => sections),
  };
}

/** A supply of the bench that gives as much as anybody asks for. */
export const supplyOf = (volts: number): string =>
  `{ class: supply, terminals: { out: [V+, V-] }, circuits: { out: { power-out: [V+, V-], voltage: ${volts} V, current: 1000 A } } }`;
