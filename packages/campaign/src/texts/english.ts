import { coreTexts } from './core.ts';
import { depthTexts } from './depths.ts';
import { drillingTexts } from './drilling.ts';
import { kindTexts } from './kinds.ts';
import { peopleTexts } from './people.ts';
import { recordTexts } from './record.ts';
import { setupTexts } from './setup.ts';

/**
 * Every text of this room in English, in the syntax of i18next: `{{name}}` is filled in, `_one` and `_other` go by
 * `count`. A crew's own language is one more record with these keys.
 */
export const english = {
  ...recordTexts,
  ...peopleTexts,
  ...setupTexts,
  ...drillingTexts,
  ...coreTexts,
  ...depthTexts,
  ...kindTexts,
} as const;
