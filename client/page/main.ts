import { languageCode, say, speak, type Words } from '../../server/core/language/say.ts';
import type { FromPage, ToPage } from '../features/summary/messages.ts';
import { startPage } from './page.ts';
import type { Host } from './state.ts';

declare const acquireVsCodeApi: () => Host;

/** What the editor has written into the document for this page; empty where it has written nothing. */
const given = (name: string): string =>
  document.querySelector<HTMLMetaElement>(`meta[name="${name}"]`)?.content ?? '';

const words = given('words');
if (words !== '') speak(JSON.parse(words) as Words);
document.documentElement.lang = languageCode();
document.title = say`Wiring summary`;

const host = acquireVsCodeApi();
const page = startPage(host, given('layout-worker'), (message: FromPage) => host.postMessage(message));
addEventListener('message', ({ data }: MessageEvent<ToPage>) => page.hear(data));
