import * as vscode from 'vscode';

/** The person wants to see the question before once more. */
export const BACK = Symbol('back');

/** One question of several: a list to choose from, or a text to type. */
export type Question<A> = (
  asked: Asked,
  answers: Partial<A>,
) => Promise<Partial<A> | typeof BACK | undefined>;

/** Where in the series a question stands. */
interface Asked {
  readonly title: string;
  readonly step: number;
  readonly totalSteps: number;
}

/** Asks one question after the other; the arrow goes back to the one before. Undefined when the person gives up. */
export async function askAll<A>(
  title: string,
  questions: readonly Question<A>[],
): Promise<Partial<A> | undefined> {
  let answers: Partial<A> = {};
  for (let step = 0; step < questions.length; ) {
    const answer = await questions[step]?.({ title, step: step + 1, totalSteps: questions.length }, answers);
    if (answer === undefined) return undefined;
    if (answer === BACK) step -= 1;
    else {
      answers = { ...answers, ...answer };
      step += 1;
    }
  }
  return answers;
}

/** Asks for a line of text. */
export function askText(
  asked: Asked,
  {
    prompt,
    value = '',
    validate,
  }: { prompt: string; value?: string | undefined; validate?: (text: string) => string | undefined },
): Promise<string | typeof BACK | undefined> {
  const box = vscode.window.createInputBox();
  Object.assign(box, asked, { prompt, value, ignoreFocusOut: true, buttons: backButton(asked) });
  box.onDidChangeValue((text) => {
    box.validationMessage = validate?.(text);
  });
  return settle(box, () => {
    const message = validate?.(box.value);
    box.validationMessage = message;
    return message === undefined ? box.value.trim() : undefined;
  });
}

/** Asks for one of several, or for some of them. */
export function askChoice(
  asked: Asked,
  {
    placeholder,
    items,
    many = false,
    chosen = [],
  }: {
    placeholder: string;
    items: readonly vscode.QuickPickItem[];
    many?: boolean;
    chosen?: readonly string[];
  },
): Promise<readonly string[] | typeof BACK | undefined> {
  const pick = vscode.window.createQuickPick();
  Object.assign(pick, asked, {
    placeholder,
    items,
    canSelectMany: many,
    ignoreFocusOut: true,
    buttons: backButton(asked),
  });
  const isChosen = ({ label }: vscode.QuickPickItem) => chosen.includes(label);
  if (many) pick.selectedItems = items.filter(isChosen);
  // Without a row that is active Enter would answer nothing, so the first one is.
  else pick.activeItems = [items.find(isChosen) ?? items[0]].filter((item) => item !== undefined);
  return settle(pick, () =>
    many || pick.selectedItems.length > 0 ? pick.selectedItems.map(({ label }) => label) : undefined,
  );
}

function backButton({ step }: Asked): vscode.QuickInputButton[] {
  return step > 1 ? [vscode.QuickInputButtons.Back] : [];
}

/** Shows an input until it is accepted with an answer, gone back from, or left. */
function settle<T>(
  input: vscode.InputBox | vscode.QuickPick<vscode.QuickPickItem>,
  read: () => T | undefined,
): Promise<T | typeof BACK | undefined> {
  return new Promise((resolve) => {
    input.onDidAccept(() => {
      const answer = read();
      if (answer === undefined) return;
      resolve(answer);
      input.hide();
    });
    input.onDidTriggerButton(() => {
      resolve(BACK);
      input.hide();
    });
    input.onDidHide(() => {
      resolve(undefined);
      input.dispose();
    });
    input.show();
  });
}
