import * as firn from '../firn/index.ts';
import * as ice from '../ice/index.ts';
import { describeWorkedExamples } from '../method-pages.suite.ts';
import * as density from './index.ts';
import { wedgeVolume } from './wedge.ts';

describeWorkedExamples(['piece-density', 'water-equivalent', 'firn', 'melt'], {
  ...ice,
  ...firn,
  ...density,
  wedgeVolume,
});
