import { describeWorkedExamples } from '../method-pages.suite.ts';
import * as ice from './index.ts';

describeWorkedExamples(['ice', 'conductivity'], { ...ice });
