import { describeWorkedExamples } from '../method-pages.suite.ts';
import * as chemistry from './index.ts';

describeWorkedExamples(
  [
    'sea-salt',
    'enrichment',
    'ion-balance',
    'water-isotopes',
    'detection-limits',
    'calibration',
    'censored-values',
  ],
  { ...chemistry },
);
