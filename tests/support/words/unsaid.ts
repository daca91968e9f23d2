import { parseSync, Visitor } from 'oxc-parser';

/** Calls that say a text in the language in use; what stands in them is a part of it. */
const SAYING = /^(?:say|later|vscode\.l10n\.t)$/;
/** Calls whose own texts are read by whoever looks for a fault, in the log. */
const LOGGING = /(?:^|\.)(?:(?:log|console)\.\w+|guard|letRun|logFault)$/;
/** Keys whose values are shown, even if they are a single word. */
const SHOWN = /^(?:label|description|detail|title|prompt|place[hH]older|tooltip)$/;
/** Two words with a space between them. */
const SENTENCE = /[A-Za-z]{2}[,.:;]? [A-Za-z]{2}/;
/** A single word that begins as a sentence does. */
const TITLE = /^[A-Z][a-z]+[.:!?…]?$/;

/** What the grammar of the code gives for a piece of it. */
interface Piece {
  readonly start: number;
  readonly end: number;
}

/**
 * Every text of a source that looks as if a person reads it and that is not said in the language in use, with the number
 * of its line. A figure in it is `…`.
 */
export function unsaidIn(source: string): { readonly line: number; readonly text: string }[] {
  const found: { line: number; text: string }[] = [];
  const unread = new Set<number>();
  let saying = 0;
  const written = ({ start, end }: Piece) => source.slice(start, end);
  const enter = (callee: Piece) => {
    if (SAYING.test(written(callee))) saying += 1;
  };
  const leave = (callee: Piece) => {
    if (SAYING.test(written(callee))) saying -= 1;
  };
  const look = (text: string, { start }: Piece, isWord: RegExp) => {
    if (saying > 0 || unread.has(start) || !(SENTENCE.test(text) || isWord.test(text))) return;
    found.push({ line: source.slice(0, start).split('\n').length, text });
  };
  new Visitor({
    CallExpression: ({ callee, arguments: given }) => {
      enter(callee);
      if (LOGGING.test(written(callee))) for (const { start } of given) unread.add(start);
    },
    'CallExpression:exit': ({ callee }) => leave(callee),
    TaggedTemplateExpression: ({ tag }) => enter(tag),
    'TaggedTemplateExpression:exit': ({ tag }) => leave(tag),
    TSLiteralType: ({ literal }) => void unread.add(literal.start),
    Literal: (literal) => {
      if (typeof literal.value === 'string') look(literal.value, literal, TITLE);
    },
    TemplateLiteral: (template) =>
      look(template.quasis.map(({ value }) => value.cooked ?? value.raw).join('…'), template, TITLE),
    Property: ({ key, value }) => {
      if (key.type === 'Identifier' && SHOWN.test(key.name) && value.type === 'Literal')
        if (typeof value.value === 'string') look(value.value, value, /^[a-z]{2,}$/);
    },
  }).visit(parseSync('source.ts', source).program);
  return found;
}
