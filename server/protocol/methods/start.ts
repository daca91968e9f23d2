import { keyInSettings } from '../../core/start/key-in.ts';
import { CARRIERS, type Carrier, MAINS_CHOICES, writeMachine } from '../../core/start/machine.ts';
import { PART_CLASSES, writeSheet } from '../../core/start/sheet.ts';
import { guard } from '../guard.ts';
import {
  NEW_MACHINE,
  NEW_SHEET,
  type NewMachineParams,
  type NewSheetParams,
  START_CHOICES,
  type StartChoices,
} from '../private.ts';
import type { Session } from '../session.ts';

/** A name for a text that is no file yet; its sheets all ship, so it does not matter where it would be. */
const NOWHERE = 'untitled:new.machine.yaml';

/** Machines and sheets that are begun by answering questions. */
export function registerStart(session: Session): void {
  const { connection, fettle, files } = session;
  const none: StartChoices = { mains: [], carriers: [], classes: [] };
  connection.onRequest(
    START_CHOICES,
    guard(
      connection,
      'choices',
      none,
      (): StartChoices => ({
        mains: [...MAINS_CHOICES],
        carriers: Object.entries(CARRIERS).map(([name, { about }]) => ({ name, about })),
        classes: PART_CLASSES.map(([name, about]) => ({ name, about })),
      }),
    ),
  );
  connection.onRequest(
    NEW_MACHINE,
    guard(connection, 'new machine', null, async (answers: NewMachineParams): Promise<string | null> => {
      const text = writeMachine({ ...answers, carrier: answers.carrier as Carrier });
      await files.fetch(fettle.wantsOf(NOWHERE, text));
      const finished = keyInSettings(text, (now) => fettle.analyse(NOWHERE, now));
      fettle.forget(NOWHERE);
      return finished;
    }),
  );
  connection.onRequest(
    NEW_SHEET,
    guard(connection, 'new sheet', null, (answers: NewSheetParams): string | null =>
      isSheet(answers) ? writeSheet(answers) : null,
    ),
  );
}

function isSheet({
  part,
  partClass,
  source,
  terminals,
}: Partial<Record<keyof NewSheetParams, unknown>>): boolean {
  return [part, partClass, source].every((text) => typeof text === 'string') && Array.isArray(terminals);
}
