/**
 * What a part can use a circuit for: the words of `does:`. An axis letter follows where `axis` says so; a drive, which
 * has one axis only, leaves it out of the words where it is `optional`.
 */
export interface Role {
  readonly axis: 'none' | 'optional' | 'needed';
  /** What may stand last, such as the end of the travel. */
  readonly last: readonly string[];
  readonly doc: string;
}

/** The axis letters of ISO 841: linear ones and rotary ones. */
export const LINEAR_AXES = ['X', 'Y', 'Z', 'U', 'V', 'W'] as const;
export const ROTARY_AXES = ['A', 'B', 'C'] as const;
export const AXES = ['X', 'Y', 'Z', 'A', 'B', 'C', 'U', 'V', 'W'] as const;

function role(axis: Role['axis'], doc: string, last: readonly string[] = []): Role {
  return { axis, last, doc };
}

export const ROLES: ReadonlyMap<string, Role> = new Map([
  ['pulse', role('optional', 'One pulse moves the motor by one microstep.')],
  ['direction', role('optional', 'The level says which way the next pulse moves the motor.')],
  ['enable', role('optional', 'Lets current into the motor. Without it the motor turns freely.')],
  ['limit', role('needed', 'Stops the axis before the hard stop at one end of its travel.', ['far', 'near'])],
  ['home', role('needed', 'Marks the place from which an axis counts.')],
  ['probe', role('none', 'Tells the moment at which a tool or probe touches.')],
  ['emergency-stop', role('none', 'Tells the controller that the emergency stop was pressed.')],
  ['reset', role('none', 'Lets a safety relay switch on again after a stop.')],
  ['start', role('none', 'Starts or resumes the program.')],
  ['pause', role('none', 'Holds the program where it is.')],
  ['alarm', role('optional', 'Tells that a drive has stopped with a fault.')],
  ['spindle run', role('none', 'Runs the spindle forwards.')],
  ['spindle reverse', role('none', 'Runs the spindle backwards.')],
  ['spindle speed', role('none', 'Asks for a spindle speed, as a voltage.')],
  ['coolant', role('none', 'Switches the coolant.')],
  ['lubrication', role('none', 'Switches the lubrication of the ways.')],
  ['handwheel A', role('none', 'The first of the two counting signals of a handwheel.')],
  ['handwheel B', role('none', 'The second counting signal, a quarter of a cycle behind or ahead.')],
  ['axis-select', role('needed', 'Tells which axis the handwheel moves.')],
  ['step-select', role('none', 'Tells how far one detent of the handwheel moves.', ['1', '10', '100'])],
]);

/** Every text that `does:` can have. */
export const ROLE_TEXTS: readonly string[] = [...ROLES].flatMap(([word, { axis, last }]) => {
  const letters = axis === 'none' ? [] : AXES.map((letter) => ` ${letter}`);
  const middles = axis === 'needed' ? letters : ['', ...letters];
  const ends = last.length === 0 ? [''] : last.map((end) => ` ${end}`);
  return middles.flatMap((middle) => ends.map((end) => `${word}${middle}${end}`));
});
