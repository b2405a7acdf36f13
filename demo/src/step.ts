import type { Command, Readings } from '@firnbook/campaign';

type Device = 'phone' | 'tablet' | 'computer';

/** One thing that somebody at the Ceredin Saddle does. All of it is invented. */
export interface Step {
  readonly device: Device;
  readonly by: string;
  /** Minutes since the campaign was opened. */
  readonly minute: number;
  /** What it is called by later steps. */
  readonly as?: string;
  readonly command: (id: Called, at: At) => Command;
}

/** The id of what an earlier step called so. */
export type Called = (name: string) => string;
/** The clock on the wall at a minute of the season. */
export type At = (minute: number) => string;

type Who = Omit<Step, 'command'>;

/** Logs a thing of the campaign itself. */
export const log = (
  who: Who,
  kind: string,
  readings: Readings | ((id: Called, at: At) => Readings),
): Step => ({
  ...who,
  command: (id, at) => ({
    do: 'log',
    kind,
    readings: typeof readings === 'function' ? readings(id, at) : readings,
  }),
});

/** Logs a thing of a hole; readings may name other things by what they are called. */
export const logIn = (who: Who, hole: string, kind: string, readings: (id: Called) => Readings): Step => ({
  ...who,
  command: (id) => ({ do: 'log', kind, hole: id(hole), readings: readings(id) }),
});

export const add = (who: Who, thing: string, readings: Readings | ((at: At) => Readings)): Step => ({
  ...who,
  command: (id, at) => ({
    do: 'add',
    thing: id(thing),
    readings: typeof readings === 'function' ? readings(at) : readings,
  }),
});

export const correct = (who: Who, thing: string, readings: Readings, reason: string): Step => ({
  ...who,
  command: (id) => ({ do: 'correct', thing: id(thing), readings, reason }),
});
