/** A figure by its number, with what to say for some of its words. */
interface Place {
  readonly figure: number;
  readonly choices: ReadonlyMap<string, string> | undefined;
}

/** A text cut at its figures. */
export type Compiled = readonly (string | Place)[];

const PLACE = /\{(\d+)((?:\|[^{}|=]*=[^{}|]*)*)\}/;

/**
 * Cuts a text at its figures. `{0}` is a figure as it is. `{1|ends=endet|end=enden}` is a word that the code chooses
 * among several, and what to say for each: so a language can agree words as its grammar wants, and the same English
 * word can be another one in each text. A word that is not listed stays as it is.
 */
export function compile(text: string): Compiled {
  return text
    .split(new RegExp(`(${PLACE.source})`))
    .flatMap((piece, index, all): readonly (string | Place)[] => {
      if (index % 4 === 0) return piece === '' ? [] : [piece];
      if (index % 4 !== 1) return [];
      return [{ figure: Number(all[index + 1]), choices: readChoices(all[index + 2] ?? '') }];
    });
}

function readChoices(text: string): Place['choices'] {
  if (text === '') return undefined;
  const pairs = text.slice(1).split('|');
  return new Map(pairs.map((pair) => [pair.slice(0, pair.indexOf('=')), pair.slice(pair.indexOf('=') + 1)]));
}

/** Puts figures into a text that was cut. */
export function fill(pieces: Compiled, figures: readonly unknown[]): string {
  let text = '';
  for (const piece of pieces) {
    if (typeof piece === 'string') text += piece;
    else {
      const figure = String(figures[piece.figure]);
      text += piece.choices?.get(figure) ?? figure;
    }
  }
  return text;
}
