import type { Printer } from './printer.ts';

/** An array of findings, those that somebody has silenced with `silenced`. */
export function jsonPrinter(): Printer {
  let count = 0;
  return {
    begin: () => '[',
    file: (checked) => {
      if (checked.kind !== 'checked') return '';
      return [...checked.findings, ...checked.silenced]
        .map((finding) => {
          const item = JSON.stringify({ ...finding, excerpt: undefined }, null, 2).replaceAll('\n', '\n  ');
          return `${count++ > 0 ? ',' : ''}\n  ${item}`;
        })
        .join('');
    },
    end: () => (count > 0 ? '\n]\n' : ']\n'),
  };
}
