import { createBook } from '@firnbook/campaign';
import {
  type Draft,
  type Entry,
  FIRST_STAMP,
  newId,
  newSalt,
  type Sealed,
  seal,
  tick,
} from '@firnbook/journal';
import { seeded } from '@firnbook/science/random';
import { COMPUTER, PHONE, script, TABLET } from './script.ts';
import type { Step } from './step.ts';

/** The demo campaign's id: a fixed name, so that two camp computers that fill themselves hold one campaign. */
export const DEMO_CAMPAIGN = '01900000-0000-7000-8000-0000000000ce';

/** 3 June 2026, 08:00 at the Ceredin Saddle, which keeps UTC + 5:45. */
const OPENED_AT = Date.UTC(2026, 5, 3, 2, 15);
const OFFSET_MINUTES = 345;
const MINUTE = 60_000;

export interface DemoOptions {
  readonly seed: number;
  /** When the last entry was made, ms since 1970; the season is moved there. Fixed in June 2026 where not given. */
  readonly now?: number;
}

/**
 * The demo's entries in total order: three chains, sealed as three devices in one camp that hear each other at once
 * would have done it. The same options give the same bytes.
 */
export function demoJournal({ seed, now }: DemoOptions): readonly Sealed[] {
  const steps = script(seed);
  const last = steps.at(-1)?.minute ?? 0;
  const start = now === undefined ? OPENED_AT : now - last * MINUTE;
  const chance = seeded(seed ^ 0x5eed);
  const randomBytes = (length: number): Uint8Array =>
    Uint8Array.from({ length }, () => Math.floor(256 * chance.uniform()));
  const devices = { phone: PHONE, tablet: TABLET, computer: COMPUTER };
  const book = createBook();
  const all: Entry[] = [];
  const tips = new Map<string, Entry>();
  const called = new Map<string, string>();
  let latest = FIRST_STAMP;

  const write = (draft: Draft, device: string, time: number): Entry => {
    latest = tick(latest, time);
    const before = tips.get(device);
    const entry = seal(draft, {
      campaign: DEMO_CAMPAIGN,
      device,
      sequence: (before?.header.sequence ?? 0) + 1,
      previous: before?.hash ?? null,
      stamp: latest,
      salt: newSalt({ now: () => time, randomBytes }),
    });
    tips.set(device, entry);
    all.push(entry);
    return entry;
  };

  const take = (step: Step): void => {
    const time = start + step.minute * MINUTE;
    const decision = book.decide(
      step.command(
        (name) => called.get(name) ?? '',
        (minute) => localTime(start + minute * MINUTE),
      ),
      {
        by: book.view().people.find((person) => person.name === step.by)?.id ?? '',
        observedAt: localTime(time),
        newId: () => newId({ now: () => time, randomBytes }),
      },
    );
    if (!decision.ok)
      throw new Error(
        `The demo's crew was refused at minute ${step.minute} (${step.as ?? 'a step'}): ${JSON.stringify(decision.refusals)}`,
      );
    const entries = decision.drafts.map((draft) => write(draft, devices[step.device], time));
    book.add(entries);
    if (step.as !== undefined) called.set(step.as, entries[0]!.header.id);
  };

  steps.forEach(take);
  return all.map((entry) => entry.sealed);
}

/** "2026-06-14T08:00:00+05:45" */
function localTime(time: number): string {
  const local = new Date(time + OFFSET_MINUTES * MINUTE).toISOString().slice(0, 19);
  const two = (number: number): string => String(number).padStart(2, '0');
  return `${local}+${two(Math.floor(OFFSET_MINUTES / 60))}:${two(OFFSET_MINUTES % 60)}`;
}
