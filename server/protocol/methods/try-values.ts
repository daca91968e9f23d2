import { printWhatIf } from '../../core/features/what-if-table.ts';
import { guard } from '../guard.ts';
import { TRY_VALUES, type TriedValues, type TryValuesParams } from '../private.ts';
import type { Session } from '../session.ts';

/** What other values would change in an open document, without changing it. */
export function registerTryValues(session: Session): void {
  const { connection, fettle } = session;
  connection.onRequest(
    TRY_VALUES,
    guard(
      connection,
      'trying values',
      null,
      async ({ uri, changes }: TryValuesParams): Promise<TriedValues | null> => {
        const analysed = await session.analysisOf(uri);
        if (!analysed) return null;
        const tried = fettle.whatIf(analysed.analysis, changes);
        return tried.kind === 'refused'
          ? { markdown: '', refused: tried.why }
          : { markdown: printWhatIf(tried) };
      },
    ),
  );
}
