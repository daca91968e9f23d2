import { withSlashes } from '../paths.ts';
import type { Printer } from './printer.ts';

const LEVELS = { error: 'error', warning: 'warning', hint: 'notice' } as const;

/**
 * A line for each finding that continuous integration hosts show beside the changed line. The form is the one that
 * several hosts read from a log: `::error file=F,line=L,col=C::message`, with per cent escapes.
 */
export function annotationPrinter(): Printer {
  return {
    begin: () => '',
    file: (checked) => {
      if (checked.kind === 'left-out') return '';
      if (checked.kind === 'unread')
        return `::error file=${property(withSlashes(checked.file))}::${data(checked.why)}\n`;
      return checked.findings
        .map(({ file, line, column, endLine, endColumn, severity, code, message }) => {
          const place = `file=${property(withSlashes(file))},line=${line},endLine=${endLine},col=${column},endColumn=${endColumn}`;
          return `::${LEVELS[severity]} ${place},title=${property(code)}::${data(message)}\n`;
        })
        .join('');
    },
    end: () => '',
  };
}

function data(text: string): string {
  return text.replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A');
}

function property(text: string): string {
  return data(text).replaceAll(':', '%3A').replaceAll(',', '%2C');
}
