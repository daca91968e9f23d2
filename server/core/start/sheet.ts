import { CLASSES } from '../../../schemas/index.ts';
import { expectedCircuits } from '../bench/bench.ts';
import { asScalar } from '../findings/common/edits.ts';

/** What has to be known for beginning a part sheet. */
export interface SheetAnswers {
  readonly part: string;
  readonly partClass: string;
  readonly source: string;
  /** As printed on the part, in their order. */
  readonly terminals: readonly string[];
}

/** Classes with what they are, for choosing one. */
export const PART_CLASSES: readonly (readonly [name: string, about: string])[] = Object.entries(CLASSES);

/**
 * The text of a part sheet that is begun: what it is, where its facts are read, its terminals in one group, and a word
 * on each circuit that such a part mostly has.
 */
export function writeSheet({ part, partClass, source, terminals }: SheetAnswers): string {
  return [
    `part: ${asScalar(part)}`,
    `class: ${partClass}`,
    `source: ${asScalar(source)}`,
    '',
    ...(terminals.length > 0
      ? ['terminals:', `  terminals: [${terminals.map(asTerminal).join(', ')}]`, '']
      : []),
    ...sayCircuits(partClass),
  ].join('\n');
}

/** Comments, since only the datasheet says which terminals a circuit has. */
function sayCircuits(partClass: string): string[] {
  const expected = expectedCircuits(partClass);
  if (expected.length === 0) return [];
  return [
    '# Next, its circuits. Without these little can be said:',
    ...expected.map(({ words, about }) => `#   ${words.join(' or ')}: ${about}`),
    '',
  ];
}

/** In brackets a name is quoted where YAML would read a sign as its own. */
function asTerminal(name: string): string {
  return /^[\w][\w.+/-]*$/.test(name) ? name : JSON.stringify(name);
}
