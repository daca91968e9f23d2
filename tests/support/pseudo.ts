import { germanWords } from './german.ts';
import { ROOT } from './lsp-client.ts';
import { extractTexts } from './words/extract.ts';

/*
 * A language that nobody speaks: every text of the code in brackets, accented and lengthened, so that whatever is left
 * in English shows, and whatever depends on a text breaks. The words that a text chooses between are taken from the
 * German dictionary, which is held to the code.
 */

const LETTERS = new Map(
  [...'aáeéiíoóuúyýAÁEÉIÍOÓUÚYÝcćCĆnńNŃsśSŚzźZŹlĺLĹrŕRŔgǵGǴ'.matchAll(/(.)(.)/gu)].map(
    ([, a = '', b = '']) => [a, b],
  ),
);

/** `⟦Fóóúńd {0}⟧`: accents on letters, vowels twice, figures as they are. */
function distort(text: string): string {
  return text
    .split(/(\{\d+\})/)
    .map((piece, i) =>
      i % 2 === 1
        ? piece
        : Array.from(piece)
            .map((letter) => (LETTERS.get(letter) ?? letter).repeat(/[aeou]/.test(letter) ? 2 : 1))
            .join(''),
    )
    .join('');
}

/** The words of the language, for `speak`, for a server's options or for a page. */
export function pseudoWords(): Readonly<Record<string, string>> {
  const german = germanWords();
  const pseudo = [...new Set(extractTexts(ROOT).map(({ key }) => key))].map((key) => [
    key,
    `⟦${choose(distort(key), german[key] ?? '')}⟧`,
  ]);
  // The code of the language is none of its words; this is what Unicode's locale data calls such a language.
  return { ...Object.fromEntries(pseudo), en: 'en-XA' };
}

/** Gives each figure the choices that German has for it. */
function choose(text: string, german: string): string {
  const choices = new Map<string, string>();
  for (const [, figure = '', list = ''] of german.matchAll(/\{(\d+)((?:\|[^{}|]*)+)\}/g))
    choices.set(
      figure,
      list
        .slice(1)
        .split('|')
        .map((each) => each.slice(0, each.indexOf('=')))
        .map((word) => `|${word}=${distort(word)}`)
        .join(''),
    );
  return text.replace(/\{(\d+)\}/g, (_, figure: string) => `{${figure}${choices.get(figure) ?? ''}}`);
}

/** A word of two letters or more as English has them. */
const WORD = /(?<![\p{L}\p{N}_.-])[A-Za-z]{2,}(?![\p{L}\p{N}_-])/gu;

/** Words that are English wherever they stand, though they may occur in the texts of a machine as well. */
const ENGLISH: ReadonlySet<string> = new Set(
  `a all an and are as asks at be been but by can could did do every for from give gives go goes
  had has have if in into is it its left less lose loses make makes many more must no not nothing of once one only
  or others take takes than that the their them then there these they this those three to too two was were what when
  where which while who will with without would write yes yet`
    .split(/\s+/)
    .filter((word) => !['in', 'no', 'yes', 'at', 'to', 'is', 'end'].includes(word)),
);

/** The words in a text that are still English, but for those that are known not to be said by the code. */
function englishIn(text: string, known: ReadonlySet<string>): string[] {
  return [...text.matchAll(WORD)]
    .map(([word]) => word)
    .filter((word) => ENGLISH.has(word) || (word.length > 2 && !known.has(word)));
}

/**
 * The words that are still English in some texts, each with one line in which it stands.
 * @param known words that are not said by the code
 * @param quotes texts of definitions, which are shown as they are written
 */
export function englishLeft(
  texts: Iterable<string>,
  known: ReadonlySet<string>,
  quotes: readonly string[] = [],
): string[] {
  const left = new Map<string, string>();
  for (const line of [...texts].flatMap((text) => text.split('\n'))) {
    const said = quotes.reduce((rest, quote) => rest.replace(quote, ''), line);
    for (const word of englishIn(said, known)) if (!left.has(word)) left.set(word, line);
  }
  return [...left].map(([word, line]) => `${word}: ${line}`);
}

/** The words of some texts, for `englishIn`. */
export function wordsOfTexts(texts: Iterable<string>): Set<string> {
  return new Set([...texts].flatMap((text) => text.match(/[A-Za-z]{3,}/g) ?? []));
}
