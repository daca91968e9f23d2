import type { SaidText } from './extract.ts';

/** The texts of one language, by the English ones. */
export type Dictionary = Readonly<Record<string, string>>;

/** What a dictionary lacks or has too much of, one line each; empty for one that is complete. */
export function compareWords(texts: readonly SaidText[], dictionary: Dictionary): string[] {
  const used = new Set(texts.map(({ key }) => key));
  const missing = new Map(
    texts.flatMap(({ key, file }) => (Object.hasOwn(dictionary, key) ? [] : [[key, file]])),
  );
  return [
    ...[...missing].map(([key, file]) => `lacks ${JSON.stringify(key)} of ${file}`),
    ...Object.keys(dictionary)
      .filter((key) => !used.has(key))
      .map((key) => `has ${JSON.stringify(key)}, which nothing says`),
    ...new Set(texts.flatMap((text) => compareText(text, dictionary[text.key]))),
  ];
}

function compareText({ key, choices, file }: SaidText, translated: string | undefined): string[] {
  if (translated === undefined) return [];
  const name = `${JSON.stringify(key)} of ${file}`;
  if (translated.trim() === '' && key.trim() !== '') return [`says nothing for ${name}`];
  if (placesOf(key).join() !== placesOf(translated).join()) return [`has other figures in ${name}`];
  const unsaid = choices.flatMap((words, figure) =>
    words.filter((word) => isWord(word) && !chooses(translated, figure, word)),
  );
  return unsaid.map((word) => `does not say ${JSON.stringify(word)} in ${name}`);
}

/** The numbers of the figures in a text, each once. */
function placesOf(text: string): string[] {
  return [...new Set([...text.matchAll(/\{(\d+)(?=[|}])/g)].map(([, number = '']) => number))].sort();
}

/** Signs and units are the same in every language. */
function isWord(text: string): boolean {
  return /[a-z]{3}/.test(text);
}

/** Whether every place of a figure has something for a word. */
function chooses(text: string, figure: number, word: string): boolean {
  const places = [...text.matchAll(new RegExp(`\\{${figure}((?:\\|[^{}|]*)*)\\}`, 'g'))];
  return places.every(([, choices = '']) =>
    choices.split('|').some((choice) => choice.startsWith(`${word}=`)),
  );
}
