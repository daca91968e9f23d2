/** What sort of part it is. */
export const CLASSES = {
  controller: 'Moves the axes: it gives the pulses and reads the switches.',
  drive: 'Puts the current into a motor, pulse by pulse.',
  motor: 'A stepper motor of an axis.',
  supply: 'Makes a direct voltage from the mains.',
  switch: 'A mechanical switch.',
  sensor: 'An electronic switch that needs a supply.',
  handwheel: 'A hand-turned wheel that gives counts.',
  converter: 'A frequency converter, which feeds a spindle motor.',
  spindle: 'A spindle motor.',
  relay: 'A relay or contactor.',
  fuse: 'A fuse.',
  breaker: 'A circuit breaker.',
  'terminal-strip': 'Terminals that only join wires.',
  'emergency-stop': 'An emergency stop device.',
  probe: 'Tells when it touches or is touched.',
  load: 'Anything else that draws current: a pump, a valve, a lamp, a fan.',
} as const;

/** The facts that belong to a class of part. Any part may have those of `any`. */
export const FACTS_BY_CLASS: Readonly<Record<string, readonly string[]>> = {
  any: ['conductors-per-terminal', 'chassis'],
  motor: ['step-angle', 'holding-torque', 'inertia', 'current-basis'],
  drive: ['current-basis'],
  handwheel: ['detents', 'counts-per-detent'],
  spindle: ['poles', 'plate-frequency', 'plate-speed', 'power', 'least-speed'],
  sensor: ['sensing-distance', 'repeatability', 'delay'],
  switch: ['repeatability', 'delay'],
};
