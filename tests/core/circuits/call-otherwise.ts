import type { Random } from '../../support/random.ts';
import { BENCH_PARTS } from './bench-parts.ts';

/** The facts of each kind of part as a sheet. */
export const SHEETS = new Map(
  Object.entries(BENCH_PARTS).map(([kind, facts]) => [
    `${kind}.part.yaml`,
    `{ part: ${kind}, ${facts.slice(1)}\n`,
  ]),
);
/** The facts of each part, in a file of their own: a name is typed beside them, and they stay what they are. */
export function withSheets(machine: string): string {
  return Object.entries(BENCH_PARTS).reduce(
    (text, [kind, facts]) => text.replaceAll(`: ${facts}`, `: { sheet: ${kind}.part.yaml }`),
    machine,
  );
}

/** Names of parts and of sheets change; of sheets also to such that are not there. */
export function callOtherwise(text: string, random: Random): string {
  const names = [...text.matchAll(/^ {2}(\w+): \{ sheet/gm)].map(([, name = '']) => name);
  const [one, other] = [random.oneOf(names), random.oneOf(names)];
  const define = (name: string) => new RegExp(`^  ${name}(?=: \\{ sheet)`, 'm');
  const sheetOf = (name: string) => new RegExp(`^(  ${name}: \\{ sheet: )(.*?)(?= \\})`, 'm');
  switch (random.below(7)) {
    case 0:
      return text.replace(define(one), one.endsWith('x') ? `  ${one.slice(0, -1)}` : `  ${one}x`);
    case 1:
      return text.replaceAll(new RegExp(`\\b${one}\\b`, 'g'), `${one}x`);
    case 2:
      return text
        .replace(define(one), '  swap')
        .replace(define(other), `  ${one}`)
        .replace(/^ {2}swap/m, `  ${other}`);
    case 3:
      return text.replace(
        sheetOf(one),
        (_, start, sheet) => start + (sheet.startsWith('x') ? sheet.slice(1) : `x${sheet}`),
      );
    case 4: {
      const [of, ofOther] = [one, other].map((name) => sheetOf(name).exec(text)?.[2] ?? '');
      return text.replace(sheetOf(one), `$1${ofOther}`).replace(sheetOf(other), `$1${of}`);
    }
    case 5:
      return text.replaceAll('sheet: x', 'sheet: ');
    default: {
      const ends = text.match(/\w+\.[\w+-]+(?= -> )/g) ?? [];
      return text.replace(/-> \w+\.[\w+-]+/, () => `-> ${random.oneOf(ends)}`);
    }
  }
}

/** Links are put in, taken out and led elsewhere; parts are called otherwise and lose their sheets. */
export function wireOtherwise(text: string, random: Random): string {
  const lines = text.split('\n');
  const links = [...lines.keys()].filter((line) => lines[line]?.includes(' -> '));
  const at = random.oneOf(links);
  switch (random.below(3)) {
    case 0:
      lines.splice(at, 1);
      break;
    case 1:
      lines.splice(at, 0, lines[random.oneOf(links)] ?? '');
      break;
    default:
      return callOtherwise(text, random);
  }
  return lines.join('\n');
}
