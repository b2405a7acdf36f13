import { describeWorkedExamples } from '../method-pages.suite.ts';
import * as random from '../random/index.ts';
import * as statistics from './index.ts';

describeWorkedExamples(
  [
    'least-squares',
    'nonlinear-fit',
    'both-variables',
    'uncertainty',
    'correlation',
    'alignment',
    'change-points',
    'splines',
    'random-numbers',
  ],
  { ...statistics, ...random },
);
