import { sayGravity } from '../../core/findings/severity.ts';
import { createColours, printable } from '../colours.ts';
import { printCodeFrame } from './code-frame.ts';
import type { Printer, PrinterOptions } from './printer.ts';

/** For people: a finding a paragraph, with the lines that it is about. */
export function textPrinter({ colour }: PrinterOptions): Printer {
  const colours = createColours(colour);
  return {
    begin: () => '',
    file: (checked) => {
      if (checked.kind !== 'checked') return '';
      const paragraphs = checked.findings.map((finding) => {
        const { file, line, column, severity, code, message, excerpt } = finding;
        const place = colours.strong(`${printable(file)}:${line}:${column}:`);
        const head = `${place} ${colours[severity](`${sayGravity(severity)}:`)} ${printable(message)} ${colours.faint(`[${code}]`)}`;
        return `${head}\n${printCodeFrame(excerpt, finding, colours)}\n`;
      });
      return paragraphs.join('');
    },
    end: () => '',
  };
}
