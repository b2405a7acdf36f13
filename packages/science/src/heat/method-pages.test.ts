import { describeWorkedExamples } from '../method-pages.suite.ts';
import * as heat from './index.ts';

describeWorkedExamples(['heat-analytic', 'heat-finite-volumes', 'boxed-core', 'mean-kinetic-temperature'], {
  ...heat,
});
