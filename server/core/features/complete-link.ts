import type { MachineAnalysis } from '../analysis.ts';
import { say } from '../language/say.ts';
import { MAINS, mainsTerminals } from '../model/resolve.ts';
import { sayRole } from '../model/role.ts';
import type { Circuit } from '../model/sheet.ts';
import { terminalId } from '../model/terminal-id.ts';
import { COLOUR_CODES } from '../units/index.ts';
import type { Completion } from './completion-item.ts';
import type { Cursor } from './cursor.ts';
import { escapeMarkdown } from './markdown.ts';

/** Completes a link: parts, after a dot their terminals with the unwired ones first, after the last end a colour. */
export function completeLink(analysis: MachineAnalysis, cursor: Cursor): Completion[] {
  const arrow = cursor.typed.lastIndexOf('->');
  const start = Math.max(arrow < 0 ? 0 : arrow + 2, cursor.typed.lastIndexOf(',') + 1);
  const piece = cursor.typed.slice(start);
  const word = piece.trimStart();
  const from = cursor.from + start + (piece.length - word.length);
  if (/\s/.test(word)) return arrow < 0 ? [arrowItem(cursor)] : colourItems(word, from);
  const dot = word.indexOf('.');
  return dot < 0 ? partItems(analysis, from) : terminalItems(analysis, word.slice(0, dot), from + dot + 1);
}

function arrowItem(cursor: Cursor): Completion {
  const from = cursor.from + cursor.typed.trimEnd().length;
  return {
    label: '->',
    kind: 'choice',
    detail: '',
    documentation: say`From here to one terminal or more.`,
    insert: ' -> ',
    from,
    rank: 0,
  };
}

function colourItems(word: string, from: number): Completion[] {
  const at = from + word.lastIndexOf(' ') + 1;
  return COLOUR_CODES.map((code, rank) => ({
    label: code,
    kind: 'colour',
    detail: 'IEC 60757',
    documentation: '',
    insert: code,
    from: at,
    rank,
  }));
}

function partItems(analysis: MachineAnalysis, from: number): Completion[] {
  const parts = [...analysis.machine.parts.values()].map(
    (part, rank): Completion => ({
      label: part.name,
      kind: 'part',
      detail: part.sheet?.title ?? '',
      documentation: '',
      insert: `${part.name}.`,
      from,
      rank,
    }),
  );
  return [
    ...parts,
    {
      label: MAINS,
      kind: 'part',
      detail: say`the supply network`,
      documentation: '',
      insert: `${MAINS}.`,
      from,
      rank: parts.length,
    },
  ];
}

/** The circuits of a part that stand at a terminal. */
function circuitsAt({ machine }: MachineAnalysis, part: string, terminal: string): Circuit[] {
  const circuits = [...(machine.parts.get(part)?.sheet?.circuits.values() ?? [])];
  return circuits.filter(({ ends }) => ends.some(({ text }) => text === terminal));
}

/** What a terminal is for, such as `home X`; a return that many circuits share is for none of them alone. */
function useOf(circuits: readonly Circuit[]): string | undefined {
  const [only, other] = circuits.flatMap(({ figures }) => figures.text('does')?.value ?? []);
  return only === undefined || other !== undefined ? undefined : sayRole(only);
}

/** What is inside the part at a terminal, a line for each circuit. */
function describeCircuits(circuits: readonly Circuit[]): string {
  return circuits
    .map(({ name, kind, figures }) => {
      const does = figures.text('does')?.value;
      return `- ${escapeMarkdown(name)}: ${kind}${does === undefined ? '' : `, ${escapeMarkdown(does)}`}`;
    })
    .join('\n');
}

function terminalItems(analysis: MachineAnalysis, name: string, from: number): Completion[] {
  if (name === MAINS) {
    return mainsTerminals(analysis.machine).map((terminal, rank) => ({
      label: terminal,
      kind: 'terminal',
      detail: say`supply network`,
      documentation: '',
      insert: terminal,
      from,
      rank,
    }));
  }
  const terminals = [...(analysis.machine.parts.get(name)?.sheet?.terminals.values() ?? [])];
  return terminals.map((terminal, index) => {
    const wired = analysis.nets.isWired(terminalId(name, terminal.name));
    const circuits = circuitsAt(analysis, name, terminal.name);
    return {
      label: terminal.name,
      kind: 'terminal',
      detail: [useOf(circuits) ?? terminal.group, ...(wired ? [say`wired`] : [])].join(', '),
      get documentation() {
        return describeCircuits(circuits);
      },
      insert: terminal.name,
      from,
      rank: wired ? 1000 + index : index,
    };
  });
}
