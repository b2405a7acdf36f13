import { describeWorkedExamples } from '../method-pages.suite.ts';
import * as mechanics from './index.ts';

describeWorkedExamples(['creep-and-closure', 'cable', 'drill-mechanics'], { ...mechanics });
