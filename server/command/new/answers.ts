import { AXES } from '../../../schemas/roles.ts';
import { say } from '../../core/language/say.ts';
import { nearestName } from '../../core/nearest.ts';
import { readMains } from '../../core/shape/mains.ts';
import { CommandError, type Streams } from '../command.ts';

/** One thing that has to be known for something new. */
export interface Question<T> {
  /** The option that answers it. */
  readonly option: string;
  readonly prompt: () => string;
  /** What holds when nobody says anything; undefined for what must be said. */
  readonly usual: string | undefined;
  /** The answer that a text means, or why it means none. */
  readonly read: (text: string) => { readonly value: T } | { readonly why: string };
}

const MOST_TRIES = 3;

/**
 * An answer from the option, else from a person at a terminal, else the usual one.
 * @throws CommandError for an option that means nothing, and for an answer that must be given and is not
 */
export async function answer<T>(
  question: Question<T>,
  given: string | undefined,
  { ask, err }: Streams,
): Promise<T> {
  const { option, prompt, usual, read } = question;
  if (given !== undefined) return accept(read(given), option);
  if (!ask) {
    if (usual === undefined) throw new CommandError(say`--${option} is missing: ${beginSmall(prompt())}?`);
    return accept(read(usual), option);
  }
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    const said = await ask(`${prompt()}${usual === undefined || usual === '' ? '' : ` [${usual}]`}: `);
    if (said === undefined)
      throw new CommandError(say`nothing was written, since the questions were broken off.`);
    const result = read(said.trim() === '' && usual !== undefined ? usual : said.trim());
    if ('value' in result) return result.value;
    err(`  ${result.why}\n`);
  }
  throw new CommandError(
    say`nothing was written, since an answer was not understood; see "fettle help new".`,
  );
}

/** A question as it stands inside a sentence. */
function beginSmall(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

function accept<T>(result: { readonly value: T } | { readonly why: string }, option: string): T {
  if ('value' in result) return result.value;
  throw new CommandError(`--${option}: ${result.why}`);
}

/** A text that says something. */
export function readText(text: string): { readonly value: string } | { readonly why: string } {
  return text.trim() === '' ? { why: say`It needs a few words.` } : { value: text.trim() };
}

/** One of some words. */
export function readWord(words: readonly string[]) {
  return (text: string): { readonly value: string } | { readonly why: string } => {
    const found = words.find((word) => word === text);
    if (found !== undefined) return { value: found };
    const near = nearestName(text, words);
    return {
      why: say`There is no ${text || 'empty one'}; ${near ? say`did you mean ${near}?` : say`take ${words.join(', ')}.`}`,
    };
  };
}

/** A supply network, as `230 V 50 Hz`. */
export function readNetwork(text: string): { readonly value: string } | { readonly why: string } {
  const reading = readMains(text);
  if (reading?.value && reading.problems.length === 0) return { value: text.trim() };
  return { why: say`"${text}" is no supply network; it looks like 230 V 50 Hz, or 3 x 400 V 50 Hz.` };
}

/** Letters of axes, as `XYZ` or `X Y A`, in the order of ISO 841. */
export function readAxes(text: string): { readonly value: readonly string[] } | { readonly why: string } {
  const letters = text
    .toUpperCase()
    .replace(/[\s,]+/g, '')
    .split('');
  const known: readonly string[] = AXES;
  const strange = letters.find((letter) => !known.includes(letter));
  if (strange !== undefined)
    return { why: say`${strange} is no axis; the letters of ISO 841 are ${known.join(' ')}.` };
  if (letters.length === 0) return { why: say`A machine has at least one axis, e.g. XYZ.` };
  return { value: known.filter((letter) => letters.includes(letter)) };
}

/** yes or no. */
export function readYes(text: string): { readonly value: boolean } | { readonly why: string } {
  const word = text.toLowerCase();
  if (['y', 'yes', 'j', 'ja'].includes(word)) return { value: true };
  return ['n', 'no', 'nein'].includes(word) ? { value: false } : { why: say`Say yes or no.` };
}
