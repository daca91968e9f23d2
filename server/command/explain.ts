import { type Arguments, CommandError, EXIT, type Streams } from './command.ts';
import { createLoader } from './load.ts';

/** `fettle explain FILE ADDRESS`: the working of one number. */
export async function explainValue({ files }: Arguments, streams: Streams): Promise<number> {
  const [file, address, ...others] = files;
  if (file === undefined || address === undefined || others.length > 0) {
    throw new CommandError(
      'explain takes a file and an address, e.g. fettle explain router.machine.yaml axes.X.top-feed',
    );
  }
  const { fettle, analysis } = await createLoader()(file);
  const explanation = fettle.explain(analysis, address);
  const text = `${explanation.lines.join('\n')}\n`;
  if (explanation.kind === 'unknown') throw new CommandError(text.trim());
  streams.out(text);
  return explanation.kind === 'value' ? EXIT.clean : EXIT.findings;
}
