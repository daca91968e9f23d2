import * as vscode from 'vscode';
import type { NewMachineParams, NewSheetParams, StartChoices } from '../../../server/protocol/private.ts';
import { askChoice, askText, BACK, type Question } from './ask.ts';

/** Refuses an empty answer with these words. */
const needed = (message: string) => (text: string) => (text.trim() === '' ? message : undefined);

/** Turns what one question gives into a part of the answers. */
async function into<T extends string | readonly string[], A>(
  asking: Promise<T | typeof BACK | undefined>,
  take: (given: T) => Partial<A>,
): Promise<Partial<A> | typeof BACK | undefined> {
  const given = await asking;
  if (given === undefined) return undefined;
  return given === BACK ? BACK : take(given);
}

/** What has to be known for a new machine. */
export function machineQuestions({ mains, carriers }: StartChoices): Question<NewMachineParams>[] {
  return [
    (asked, { name }) =>
      into(
        askText(asked, {
          prompt: vscode.l10n.t('What is the machine called?'),
          value: name,
          validate: needed(vscode.l10n.t('Type a name.')),
        }),
        (text) => ({ name: text }),
      ),
    (asked, answers) =>
      into(
        askChoice(asked, {
          placeholder: vscode.l10n.t('Which supply network is it plugged into?'),
          items: mains.map((label) => ({ label })),
          chosen: [answers.mains ?? ''],
        }),
        ([first = '']) => ({ mains: first }),
      ),
    (asked, { axes = ['X', 'Y', 'Z'] }) =>
      into(
        askChoice(asked, {
          placeholder: vscode.l10n.t('Which axes has it? Letters of ISO 841'),
          items: listAxes(),
          many: true,
          chosen: axes,
        }),
        (letters) => ({ axes: letters }),
      ),
    (asked, { carrier }) =>
      into(
        askChoice(asked, {
          placeholder: vscode.l10n.t('What moves the linear axes?'),
          items: carriers.map(({ about }) => ({ label: about })),
          chosen: carriers.filter(({ name }) => name === carrier).map(({ about }) => about),
        }),
        ([first]) => ({ carrier: carriers.find(({ about }) => about === first)?.name ?? 'screw-5' }),
      ),
    (asked) => {
      const spindle = vscode.l10n.t('A spindle on a frequency converter');
      return into(
        askChoice(asked, {
          placeholder: vscode.l10n.t('Has it a spindle?'),
          items: [{ label: vscode.l10n.t('No spindle, or none with a converter') }, { label: spindle }],
        }),
        ([first]) => ({ spindle: first === spindle }),
      );
    },
  ];
}

function listAxes(): vscode.QuickPickItem[] {
  const [linear, rotary] = [vscode.l10n.t('linear'), vscode.l10n.t('rotary')];
  return [
    ...['X', 'Y', 'Z', 'U', 'V', 'W'].map((label) => ({ label, description: linear })),
    ...['A', 'B', 'C'].map((label) => ({ label, description: rotary })),
  ];
}

/** What has to be known for a new part sheet. */
export function sheetQuestions({ classes }: StartChoices): Question<NewSheetParams>[] {
  return [
    (asked, { part }) =>
      into(
        askText(asked, {
          prompt: vscode.l10n.t('What is the part, as its datasheet calls it?'),
          value: part,
          validate: needed(vscode.l10n.t('Type what it is.')),
        }),
        (text) => ({ part: text }),
      ),
    (asked, { partClass }) =>
      into(
        askChoice(asked, {
          placeholder: vscode.l10n.t('What sort of part is it?'),
          items: classes.map(({ name, about }) => ({ label: name, description: about })),
          chosen: [partClass ?? ''],
        }),
        ([first = 'load']) => ({ partClass: first }),
      ),
    (asked, { source }) =>
      into(
        askText(asked, {
          prompt: vscode.l10n.t('Where are its facts read? Title, revision and page of the datasheet'),
          value: source,
          validate: needed(vscode.l10n.t('Type where the facts are from.')),
        }),
        (text) => ({ source: text }),
      ),
    (asked, { terminals = [] }) =>
      into(
        askText(asked, {
          prompt: vscode.l10n.t(
            'Its terminals as they are printed on it, in their order, with commas between them',
          ),
          value: terminals.join(', '),
        }),
        (text) => ({
          terminals: [...new Set(text.split(/[,\s]+/).filter((name) => name !== ''))],
        }),
      ),
  ];
}
