import type { Random } from '../../random/index.ts';

/** Which readings a crew takes beyond counters, lengths and the simplest words for breaks. */
export interface Habits {
  /** More words: breaks ground, sawn, broken in handling; chip plugs that are no core. */
  readonly breakClasses: boolean;
  /** The drill's core barrel and its catchers were measured; scratches of the catchers are looked for. */
  readonly barrel: boolean;
  readonly catcherMarks: boolean;
  /** Many runs are assembled on a tray and read off one tape. */
  readonly trayTape: boolean;
  /** Some pieces are measured again. */
  readonly remeasured: boolean;
  /** Which tape it was is written down, and how cold the core is. */
  readonly tapes: boolean;
  readonly temperatures: boolean;
  /** Crumbled core gets its length from mass and density. */
  readonly masses: boolean;
  readonly cableChecks: boolean;
  /** The zero is levelled at the start and at the crew change. */
  readonly zeros: boolean;
  /** The counter is zeroed on every trip, and it is written down where it isn't. */
  readonly resets: boolean;
}

export const plainHabits: Habits = {
  breakClasses: false,
  barrel: false,
  catcherMarks: false,
  trayTape: false,
  remeasured: false,
  tapes: false,
  temperatures: false,
  masses: false,
  cableChecks: false,
  zeros: false,
  resets: true,
};

export const drawHabits = (random: Random): Habits => {
  const half = () => random.uniform() < 0.5;
  return {
    breakClasses: half(),
    barrel: half(),
    catcherMarks: half(),
    trayTape: random.uniform() < 0.3,
    remeasured: half(),
    tapes: half(),
    temperatures: half(),
    masses: half(),
    cableChecks: half(),
    zeros: half(),
    resets: random.uniform() < 0.7,
  };
};
