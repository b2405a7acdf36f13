import { verticalDepths } from '../depth-scales/index.ts';
import { describeWorkedExamples } from '../method-pages.suite.ts';
import * as geometry from './index.ts';

describeWorkedExamples(['cross-section', 'inclination'], { ...geometry, verticalDepths });
