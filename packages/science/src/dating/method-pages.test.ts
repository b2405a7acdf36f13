import * as horizons from '../horizons/index.ts';
import { describeWorkedExamples } from '../method-pages.suite.ts';
import * as dating from './index.ts';

describeWorkedExamples(['flow-ages', 'layer-counting', 'epochs-and-dates', 'decay', 'lead-210', 'horizons'], {
  ...dating,
  ...horizons,
});
