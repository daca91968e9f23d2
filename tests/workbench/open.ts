/** Opens a file in the workbench for the browser and prints the address. Usage: open.ts VSIX FOLDER FILE */
import path from 'node:path';
import { addressOf, startHost } from './host.ts';

const [vsix, folder, file] = process.argv.slice(2).map((word) => path.resolve(word));
if (!vsix || !folder || !file) throw new Error('Usage: open.ts VSIX FOLDER FILE');

const host = await startHost({ dir: path.resolve('.cache/workbench'), vsix });
console.log(`Open this address in a browser on this machine:\n\n  ${addressOf(host, folder, file)}\n`);
console.log(
  'There, press the button at the top right, "Show wiring summary". Ctrl+C here ends the workbench.',
);

for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => void host.stop());
